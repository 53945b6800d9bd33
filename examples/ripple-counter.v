// A bottling belt: a light barrier gives one pulse per bottle, a crate holds sixteen, and a lamp
// marks the eighth bottle.
//
// What to look at: each flip-flop is clocked by the one before it, so the bits change one after the
// other. On the way from 7 to 8 the counter passes 6, 4 and 0 - and `half_full`, decoded from the
// moving bits, pulses where nobody counted to 8.
`timescale 1ns / 1ps

module belt_counter (
  input  wire       bottle,     // light barrier: falls when a bottle has passed
  output reg  [3:0] count,
  output wire       half_full,  // the eighth bottle is in the crate
  output wire       crate_empty
);
  initial count = 4'd0;

  always @(negedge bottle)   count[0] <= ~count[0];
  always @(negedge count[0]) count[1] <= ~count[1];
  always @(negedge count[1]) count[2] <= ~count[2];
  always @(negedge count[2]) count[3] <= ~count[3];

  assign half_full   = (count == 4'd8);
  assign crate_empty = (count == 4'd0);
endmodule
