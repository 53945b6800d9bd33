//>> because gates, inverters and latches add delay, never a stage; a data enable adds neither (rule 2)
module stages(input clk, input en, input d, output reg a, b, c, e);
  initial {a, b, c, e} = 0;
  wire turned = ~a;
  always @(posedge clk) a <= ~a;  //> a stage 1
  always @(posedge turned) b <= ~b;  //> b stage 2 | turned finding ripple-chain
  always @(posedge b) c <= ~c;  //> c stage 3
  always @(posedge clk) if (en) e <= d;  //> e stage 1, enable en high, clock clk rising
endmodule
