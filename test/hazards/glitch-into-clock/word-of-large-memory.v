//>> because a clock taken from a bit of a memory's output pulses while the address moves
module word_of_memory(input clk, output reg q);
  reg [15:0] words [0:1023];
  reg [9:0] step = 0;
  integer i;
  initial begin q = 0; for (i = 0; i < 1024; i = i + 1) words[i] = i; end
  always @(posedge clk) step <= step + 1;
  wire tick = words[step][3];     //> words finding glitch-into-clock possible warning
  always @(posedge tick) q <= ~q; //> tick finding derived-clock warning
endmodule
