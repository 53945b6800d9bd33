//>> because a large memory without a clock would be one latch per bit: it is refused where it is written
module memory_of_latches(input we, input [9:0] at, input [15:0] in, output [15:0] out);
  reg [15:0] words [0:1023];
  always @* if (we) words[at] = in;  //> words finding unsupported
  assign out = words[at];
endmodule
