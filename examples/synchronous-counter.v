// The bottling belt again, counted by one clock.
//
// What to look at: the same count as in ripple-counter.v, but every bit is clocked by the same edge
// and changes together with the others, and the lamp comes from a flip-flop that looks one count
// ahead: no chain, no passing values, nothing to decode wrongly.
`timescale 1ns / 1ps

module belt_counter (
  input  wire       bottle,
  output reg  [3:0] count,
  output reg        half_full
);
  initial begin
    count     = 4'd0;
    half_full = 1'b0;
  end

  always @(negedge bottle) begin
    count     <= count + 4'd1;
    half_full <= (count == 4'd7);
  end
endmodule
