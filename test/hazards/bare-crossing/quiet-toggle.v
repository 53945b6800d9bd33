//>> because what crosses is a change that stays: the receiver compares two samples one period apart
module told_once(input a_clk, b_clk, event_a, output reg event_b);
  reg flag = 0, f1 = 0, f2 = 0, f3 = 0;
  always @(posedge a_clk) if (event_a) flag <= ~flag;
  always @(posedge b_clk) begin
    f1 <= flag;                                        //> f1 crossing protected toggle, quiet
    f2 <= f1;
    f3 <= f2;
    event_b <= f2 != f3;
  end
  initial event_b = 0;
endmodule
