//>> because the data of a root register is there one clock-to-output delay before a stage-3 clock
module deep(input clk, output reg seen);
  reg a, b, data;
  initial {a, b, data} = 0;
  always @(posedge clk) a <= ~a;
  always @(posedge a) b <= ~b;  //> a finding ripple-chain
  always @(posedge clk) data <= ~data;
  always @(posedge b) seen <= data;  //> b finding derived-clock | seen quiet
endmodule
