//>> because a memory of any size that the limit allows is read: what nobody touches costs nothing
module large_memory(input clk, input we, input [19:0] place, input [31:0] in, output reg [31:0] out);
  reg [31:0] words [0:1048575];  //> words quiet, no register
  always @(posedge clk) begin
    if (we) words[place] <= in;
    out <= words[place];  //> out stage 1
  end
endmodule
