//>> because branches are separate chains with a shared prefix (rule 10)
module branches(input clk, output reg a, b, c);
  initial {a, b, c} = 0;
  always @(posedge clk) a <= ~a;
  always @(posedge a) b <= ~b;  //> a finding ripple-chain | b stage 2
  always @(negedge a) c <= ~c;  //> a finding ripple-chain | c stage 2
endmodule
