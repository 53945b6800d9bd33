//>> because nothing keeps the two enables of one bus from being on at one time (rule 41)
module bus(input on_a, input on_b, input [7:0] a, input [7:0] b, output [7:0] y);
  assign y = on_a ? a : 8'bz;
  assign y = on_b ? b : 8'bz;  //> y finding shared-driver possible warning
endmodule
