//>> top meter
//>> because a small processor with 1024 words of program and 1024 words of data, each a memory with a registered output
// Counts litres: pulses come in, a program adds them up and shows the sum. One instruction takes three clocks: fetch,
// read, act.
`default_nettype none
module meter(
  input wire clk, reset, pulse,
  output wire [15:0] shown
);
  // A pulse of the sensor is two flip-flops away from being one of this clock.
  reg [1:0] sensed = 0;        //> sensed clock clk rising
  always @(posedge clk) sensed <= {sensed[0], pulse};

  wire [9:0] code_at, data_at;
  wire [15:0] code, read, written;
  wire write;
  words_of #(.PROGRAM(1)) program (clk, 1'b0, code_at, 16'd0, code);
  words_of store (clk, write, data_at, written, read);
  core the_core (clk, reset, sensed[1], code_at, code, data_at, read, write, written, shown);
endmodule

module words_of #(parameter PROGRAM = 0) (
  input wire clk, write, input wire [9:0] at, input wire [15:0] in, output reg [15:0] out
);
  reg [15:0] words [0:1023];   //> words quiet, no register
  integer i;
  initial if (PROGRAM) begin
    for (i = 0; i < 1024; i = i + 1) words[i] = 16'h5000;
    words[0] = 16'h1000;       // push input
    words[1] = 16'h2005;       // push data word 5
    words[2] = 16'h3000;       // add
    words[3] = 16'h4005;       // pop to data word 5
    words[4] = 16'h5000;       // jump to 0
  end else for (i = 0; i < 1024; i = i + 1) words[i] = 0;
  always @(posedge clk) begin
    if (write) words[at] <= in;
    out <= words[at];          //> out clock clk rising, stage 1
  end
endmodule

module core(
  input wire clk, reset, event_seen,
  output wire [9:0] code_at, input wire [15:0] code,
  output wire [9:0] data_at, input wire [15:0] read, output wire write, output wire [15:0] written,
  output reg [15:0] shown
);
  localparam PUSH_INPUT = 4'd1, PUSH = 4'd2, ADD = 4'd3, POP = 4'd4, JUMP = 4'd5;
  reg [1:0] phase;             //> phase clock clk rising, start 00
  reg [9:0] pc;                //> pc clock clk rising, start 0000000000
  reg [15:0] top, below;       //> top clock clk rising | below clock clk rising

  assign code_at = pc;
  assign data_at = code[9:0];
  assign write = phase == 2'd2 && code[15:12] == POP;
  assign written = top;

  always @(posedge clk)
    if (reset) begin
      phase <= 0; pc <= 0; top <= 0; below <= 0; shown <= 0;
    end else begin
      phase <= phase == 2'd2 ? 2'd0 : phase + 2'd1;
      if (phase == 2'd2) begin
        pc <= code[15:12] == JUMP ? code[9:0] : pc + 10'd1;
        case (code[15:12])
          PUSH_INPUT: begin below <= top; top <= {15'd0, event_seen}; end
          PUSH:       begin below <= top; top <= read; end
          ADD:        top <= top + below;
          POP:        begin shown <= top; top <= below; end
          default: ;
        endcase
      end
    end
endmodule
