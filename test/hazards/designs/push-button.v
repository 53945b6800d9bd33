//>> because a button through two flip-flops, a count and an edge detector of neighbors in time
module debounce #(parameter N = 20) (input clk, input button, output reg pressed, output press);
  reg [N-1:0] count = 0;
  reg s0 = 0, s1 = 0, last = 0;
  initial pressed = 0;
  always @(posedge clk) begin
    s0 <= button;
    s1 <= s0;
    if (s1 == pressed) count <= 0;
    else begin
      count <= count + 1;
      if (&count) pressed <= s1;
    end
    last <= pressed;
  end
  assign press = pressed & ~last;
endmodule
