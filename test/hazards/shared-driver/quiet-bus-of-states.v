//>> because a ring of one 1 enables one driver at a time
module ring(input clk, input rst, input [2:0] d, output y);
  reg [2:0] turn;
  always @(posedge clk) turn <= rst ? 3'b001 : {turn[1:0], turn[2]};  //> turn finding trap-state
  assign y = turn[0] ? d[0] : 1'bz;
  assign y = turn[1] ? d[1] : 1'bz;
  assign y = turn[2] ? d[2] : 1'bz;  //> y quiet
endmodule
