//>> because 10 ns fit between two edges 35 ns apart
//>> project {"clocks": {"fast": {"periodPs": 10000}, "slow": {"periodPs": 35000}}}
module tick_over(input fast, slow, output reg tick);
  reg [2:0] n = 0;
  reg strobe = 0, first = 0;
  initial tick = 0;
  always @(posedge fast) begin
    n <= n + 1;
    strobe <= n == 7;
  end
  always @(posedge slow) begin
    first <= strobe;  //> first finding short-pulse-crossing certain
    tick <= first;
  end
endmodule
