// A lift's cabin position, told in a code in which neighbours differ in one bit.
//
// What to look at: the sequence is recognised as a Gray code, so whoever reads `floor_code` in the
// middle of a step reads the old floor or the new one, never a third. `binary` beside it is an
// ordinary count.
`timescale 1ns / 1ps

module cabin_position (
  input  wire       clk,
  input  wire       rst,
  output reg  [3:0] floor_code,
  output reg  [3:0] binary
);
  wire [3:0] next = binary + 4'd1;

  always @(posedge clk)
    if (rst) begin
      binary     <= 4'd0;
      floor_code <= 4'd0;
    end else begin
      binary     <= next;
      floor_code <= next ^ (next >> 1);
    end
endmodule
