//>> because a serial sender is one clock, enables and a registered output; only the decode of busy may glitch
module uart_tx #(parameter DIV = 434) (input clk, input rst_n, input [7:0] data, input start, output reg tx, output busy);  //> rst_n finding reset-release
  localparam IDLE = 2'd0, START = 2'd1, DATA = 2'd2, STOP = 2'd3;
  reg [1:0] state;
  reg [8:0] divider;
  reg [2:0] bits;
  reg [7:0] shift;
  wire tick = (divider == DIV - 1);
  assign busy = (state != IDLE);  //> != finding decoded-glitch hint
  always @(posedge clk or negedge rst_n)
    if (!rst_n) divider <= 0;
    else if (tick || state == IDLE) divider <= 0;
    else divider <= divider + 1;
  always @(posedge clk or negedge rst_n)
    if (!rst_n) begin
      state <= IDLE; tx <= 1; bits <= 0; shift <= 0;
    end else case (state)
      IDLE: if (start) begin shift <= data; state <= START; tx <= 0; end
      START: if (tick) begin state <= DATA; tx <= shift[0]; bits <= 0; end
      DATA: if (tick) begin
        shift <= shift >> 1;
        bits <= bits + 1;
        if (bits == 7) begin state <= STOP; tx <= 1; end
        else tx <= shift[1];
      end
      STOP: if (tick) state <= IDLE;
    endcase
endmodule
