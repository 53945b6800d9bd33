//>> because a bit of a counter that clocks something else is a derived clock
module tick(input clk, input rst_n, input d, output reg q);  //> rst_n finding reset-release
  reg [3:0] n;
  always @(posedge clk or negedge rst_n)
    if (!rst_n) n <= 0;
    else n <= n + 1;
  always @(negedge n[3] or negedge rst_n)  //> n[3] finding derived-clock
    if (!rst_n) q <= 0;
    else q <= d;  //> q stage 2, clock n[3] falling
endmodule
