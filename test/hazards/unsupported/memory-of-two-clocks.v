//>> because a large memory that two clocks write is kept by neither: its content is refused where the second one writes
module two_clocks(
  input clk_a, clk_b, we_a, we_b, input [9:0] at_a, at_b, input [15:0] in_a, in_b,
  output reg [15:0] out
);
  reg [15:0] words [0:1023];  //> words quiet
  always @(posedge clk_a) begin
    if (we_a) words[at_a] <= in_a;
    out <= words[at_a];  //> out clock clk_a rising
  end
  always @(posedge clk_b)
    if (we_b) words[at_b] <= in_b;  //> words finding unsupported warning
endmodule
