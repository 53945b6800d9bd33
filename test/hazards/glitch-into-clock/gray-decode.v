//>> because only one of the two bits changes at an edge
module quadrature(input clk, input rst, output reg flag);
  reg [1:0] phase;
  always @(posedge clk) if (rst) phase <= 0; else phase <= {phase[0], ~phase[1]};
  wire tick = phase[1] & phase[0];  //> phase#1 quiet
  initial flag = 0;
  always @(posedge tick) flag <= ~flag;  //> tick finding derived-clock warning
endmodule
