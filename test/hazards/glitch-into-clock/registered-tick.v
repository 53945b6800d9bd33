//>> because a tick from a register does not pulse
module ticked(input clk, input rst, output reg [3:0] n);  //> rst finding reset-release
  reg [2:0] divider;
  reg tick;
  always @(posedge clk)
    if (rst) {divider, tick} <= 0;
    else begin
      divider <= divider + 1;
      tick <= (divider == 6);
    end
  always @(posedge tick or posedge rst) if (rst) n <= 0; else n <= n + 1;  //> tick finding derived-clock
endmodule
