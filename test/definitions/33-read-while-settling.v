//>> because a register that reads a chain of two stages of 4 ns at its next edge is right at 9 ns a period and warned of at 7, where it sees 0 on the way from 1 to 2; at exactly 8 ns the last change and the reading edge are a race (rule 33)
//>> project {"delays": "part", "delaySets": {"part": {"clockToQ": {"first": {"rise": 4000, "fall": 4000}}}}, "clocks": {"slow": {"periodPs": 9000}, "even": {"periodPs": 8000}, "fast": {"periodPs": 7000}}}
module rates(input slow, even, fast, output [1:0] s, e, f);
  right u(slow, s);
  race v(even, e);
  wrong w(fast, f);
endmodule
module right(input clk, output reg [1:0] seen);
  wire [1:0] n;
  two t(clk, n);
  always @(negedge clk) seen <= n;  //> seen quiet
endmodule
module race(input clk, output reg [1:0] seen);
  wire [1:0] n;
  two t(clk, n);
  always @(negedge clk) seen <= n;  //> seen finding read-while-settling possible
endmodule
module wrong(input clk, output reg [1:0] seen);
  wire [1:0] n;
  two t(clk, n);
  always @(negedge clk) seen <= n;  //> seen finding read-while-settling certain
endmodule
module two(input step, output [1:0] n);
  reg a, b;
  initial {a, b} = 0;
  always @(negedge step) a <= ~a;
  always @(negedge a) b <= ~b;  //> a finding ripple-chain
  assign n = {b, a};
endmodule
