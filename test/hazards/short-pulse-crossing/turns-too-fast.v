//>> because a bit that turns over every 10 ns is not followed by samples 25 ns apart
//>> project {"clocks": {"fast": {"periodPs": 10000}, "slow": {"periodPs": 25000}}}
module turning(input fast, slow, output reg q);
  reg t = 0, first = 0;
  initial q = 0;
  always @(posedge fast) t <= ~t;
  always @(posedge slow) begin
    first <= t;  //> first finding short-pulse-crossing certain
    q <= first;
  end
endmodule
