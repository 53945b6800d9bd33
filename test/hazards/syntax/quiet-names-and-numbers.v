//>> because escaped names, underscores in digits and spaces behind a base are the standard's (IEEE 1364-2005 3.5.1, 3.7.1)
module \bus-side (input clk, input [15:0] \data+in , output reg [15:0] q /* a ; in a comment */);
  wire [15:0] mask = 16'b1111_0000_1111_0000;
  wire [15:0] flip = 16 'h 0f_0f;
  // begin begin begin (
  always @(posedge clk) q <= (\data+in & mask) ^ flip;  //> q quiet
endmodule
