//>> because one synchronized bit tells when the data may be taken; that it waits is assumed, and said
module taken(input clk_a, clk_b, write, input [3:0] d, output reg [3:0] q);
  reg [3:0] held;
  reg flip, take;
  reg [2:0] seen;
  initial {held, flip, seen, take, q} = 0;
  always @(posedge clk_a) if (write) begin held <= d; flip <= ~flip; end
  always @(posedge clk_b) begin
    seen <= {seen[1:0], flip};
    take <= seen[2] ^ seen[1];
    if (take) q <= held;  //> q quiet, crossing assumed enable
  end
endmodule
