// A greenhouse: a slow clock made from the board's oscillator steps the soil readings along.
//
// What to look at: `slow` is the output of a flip-flop and clocks a whole block. Its edge comes one
// clock-to-output delay after the board clock's, so `fresh` (launched by the board clock) and `slow`
// leave together and race for the block's input.
`timescale 1ns / 1ps

module soil_sampler (
  input  wire       clk,
  input  wire       rst_n,
  input  wire       probe,
  output reg  [3:0] history
);
  reg [2:0] divider;
  reg       fresh;
  wire      slow = divider[2];

  always @(posedge clk or negedge rst_n)
    if (!rst_n) begin
      divider <= 3'd0;
      fresh   <= 1'b0;
    end else begin
      divider <= divider + 3'd1;
      fresh   <= probe ^ fresh;
    end

  always @(posedge slow or negedge rst_n)
    if (!rst_n) history <= 4'd0;
    else        history <= {history[2:0], fresh};
endmodule
