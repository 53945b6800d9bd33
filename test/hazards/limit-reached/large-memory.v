//>> because a memory has no more words than the limit allows
//>> limit memoryWords=4096
module large_memory(input clk, input we, input [13:0] place, input [7:0] in, output reg [7:0] out);
  reg [7:0] words [0:16383];  //> [0:16383] finding limit-reached
  always @(posedge clk) begin
    if (we) words[place] <= in;
    out <= words[place];  //> out stage 1
  end
endmodule
