//>> because the state register's next value is recomputed only when the state changes, told once for both instances
module machine(input clk, input rst, input go, output reg [1:0] state);
  reg [1:0] next;
  always @(state)  //> state finding stale-sensitivity
    if (go) next = state + 2'd1; else next = state;
  always @(posedge clk) state <= rst ? 2'd0 : next;
endmodule
module two(input clk, input rst, input [1:0] go, output [1:0] a, output [1:0] b);
  machine u(clk, rst, go[0], a);
  machine v(clk, rst, go[1], b);
endmodule
