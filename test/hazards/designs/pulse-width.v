//>> because a comparison in front of a register is clean, one on a port may pulse
module pwm(input clk, input rst, input [7:0] duty, output reg out);
  reg [7:0] n;
  always @(posedge clk) if (rst) begin n <= 0; out <= 0; end else begin n <= n + 1; out <= (n < duty); end
endmodule
module pwm_comb(input clk, input rst, input [7:0] duty, output out);
  reg [7:0] n;
  always @(posedge clk) if (rst) n <= 0; else n <= n + 1;
  assign out = n < duty;  //> < finding decoded-glitch hint
endmodule
module pwms(input clk, input rst, input [7:0] duty, output a, b);
  pwm p(clk, rst, duty, a);
  pwm_comb q(clk, rst, duty, b);
endmodule
