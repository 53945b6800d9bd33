//>> because a memory of a few hundred bits is followed word by word (definition 11)
module small_memory(input clk, input we, input [3:0] place, input [7:0] in, output reg [7:0] out);
  reg [7:0] words [0:15];  //> words no register
  always @(posedge clk) begin
    if (we) words[place] <= in;
    out <= words[place];  //> out stage 1
  end
endmodule
