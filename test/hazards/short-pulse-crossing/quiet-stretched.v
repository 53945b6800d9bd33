//>> because it stands for eight periods, and the receiver's is four of them
//>> project {"clocks": {"fast": {"periodPs": 10000}, "slow": {"periodPs": 40000}}}
module stretched(input fast, slow, output reg tick);
  reg [3:0] n = 0;
  reg first = 0;
  initial tick = 0;
  always @(posedge fast) n <= n + 1;
  always @(posedge slow) begin
    first <= n[3];  //> first quiet
    tick <= first;
  end
endmodule
