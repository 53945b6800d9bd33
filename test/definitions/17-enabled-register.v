//>> because a register that waits for an enable from outside becomes known; a toggle behind the same enable never does (rule 17)
module enabled(input clk, input en, input d, output reg held, output reg flips);  //> held quiet | flips finding unknown-start
  always @(posedge clk) if (en) held <= d;
  always @(posedge clk) if (en) flips <= ~flips;
endmodule
