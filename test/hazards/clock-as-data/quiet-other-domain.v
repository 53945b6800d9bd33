//>> because a clock sampled by another one is measured, not raced: two flip-flops take it as they take any signal
module measured(input clk, input other, output reg seen, output reg was);
  reg first, tick;
  always @(posedge other) tick <= ~tick;
  always @(posedge clk) begin
    first <= other;  //> first quiet
    seen <= first;
  end
  always @(posedge clk) was <= seen;
endmodule
