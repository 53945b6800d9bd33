//>> because two sensors through rows of flip-flops decide up or down
module quad(input clk, input a, input b, output reg [7:0] count);
  reg [2:0] sa, sb;
  initial begin sa = 0; sb = 0; count = 0; end
  always @(posedge clk) begin sa <= {sa[1:0], a}; sb <= {sb[1:0], b}; end
  wire step = sa[1] ^ sa[2] ^ sb[1] ^ sb[2];
  wire dir = sa[1] ^ sb[2];
  always @(posedge clk) if (step) begin if (dir) count <= count + 1; else count <= count - 1; end
endmodule
