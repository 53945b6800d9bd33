//>> because a toggle with no reset and no initial value can stay unknown for ever (rule 17)
module never_known(input clk, output reg q);  //> q finding unknown-start information
  always @(posedge clk) q <= ~q;
endmodule
