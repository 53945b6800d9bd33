//>> because how long a level from outside stands is not for the tool to say
//>> project {"clocks": {"fast": {"periodPs": 10000}, "slow": {"periodPs": 40000}}}
module level(input fast, slow, d, output reg q);
  reg s = 0, first = 0;
  initial q = 0;
  always @(posedge fast) s <= d;
  always @(posedge slow) begin
    first <= s;  //> first quiet
    q <= first;
  end
endmodule
