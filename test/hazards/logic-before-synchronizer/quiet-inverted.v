//>> because an inverter passes nothing on its way
module inverted(input clk_a, clk_b, output reg q);
  reg flag = 0, first = 0;
  initial q = 0;
  always @(posedge clk_a) flag <= ~flag;
  wire flag_b, flag_n;
  buf b(flag_b, flag);
  not n(flag_n, flag_b);
  always @(posedge clk_b) begin
    first <= flag_n;  //> first quiet
    q <= first;
  end
endmodule
