// A washing programme: fill, wash, drain, spin, each for a number of ticks, then again from idle.
//
// What to look at: the state register's sequence with its way round, the valve and motor outputs
// that are decoded from two registers changing together (possible glitches at the ports), and the
// one output that is registered and stays quiet.
`timescale 1ns / 1ps

module wash_controller (
  input  wire clk,
  input  wire rst_n,
  input  wire start,
  output wire valve,
  output wire motor,
  output wire pump,
  output reg  done
);
  localparam [2:0] IDLE = 3'd0, FILL = 3'd1, WASH = 3'd2, DRAIN = 3'd3, SPIN = 3'd4;

  reg [2:0] state;
  reg [2:0] ticks;

  always @(posedge clk or negedge rst_n)
    if (!rst_n) begin
      state <= IDLE;
      ticks <= 3'd0;
      done  <= 1'b0;
    end else begin
      done <= 1'b0;
      case (state)
        IDLE:
          if (start) begin
            state <= FILL;
            ticks <= 3'd2;
          end
        FILL:
          if (ticks == 3'd0) begin
            state <= WASH;
            ticks <= 3'd5;
          end else ticks <= ticks - 3'd1;
        WASH:
          if (ticks == 3'd0) begin
            state <= DRAIN;
            ticks <= 3'd1;
          end else ticks <= ticks - 3'd1;
        DRAIN:
          if (ticks == 3'd0) begin
            state <= SPIN;
            ticks <= 3'd3;
          end else ticks <= ticks - 3'd1;
        SPIN:
          if (ticks == 3'd0) begin
            state <= IDLE;
            done  <= 1'b1;
          end else ticks <= ticks - 3'd1;
        default: state <= IDLE;
      endcase
    end

  assign valve = (state == FILL);
  assign motor = (state == WASH) | (state == SPIN);
  assign pump  = (state == DRAIN) | (state == SPIN);
endmodule
