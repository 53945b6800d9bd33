//>> top garden_controller
//>> because a processor of one accumulator on a bus of its own, in the old style: ports in the body, reg lists, blocking decode
// Watering controller: an 8-bit accumulator machine, 32 bytes of program, two bus slaves.

module garden_controller(clk, reset, moisture, valve, lamp, halted);
input clk, reset;
input [7:0] moisture;
output valve;
output [3:0] lamp;
output halted;

wire [7:0] address, write_data;
reg  [7:0] read_data;
wire write, read;
wire select_sensor = address[7:4] == 4'h8;
wire select_lamp   = address[7:4] == 4'h9;
wire [7:0] lamp_data;

processor cpu(.clk(clk), .reset(reset), .address(address), .data_in(read_data),
              .data_out(write_data), .write(write), .read(read), .halted(halted));

lamp_port lamps(clk, reset, select_lamp & write, write_data, lamp_data);
assign lamp = lamp_data[3:0];

valve_timer timer(clk, reset, write & ~select_lamp & address == 8'hA0, write_data, valve);

// One register on the way in: the sensor is read a cycle later.
reg [7:0] sensor;
always @(posedge clk)
  sensor <= moisture;

always @(select_sensor or select_lamp or sensor or lamp_data)
  if (select_sensor) read_data = sensor;
  else if (select_lamp) read_data = lamp_data;
  else read_data = 8'hFF;
endmodule

module processor(clk, reset, address, data_in, data_out, write, read, halted);
  input clk, reset;
  output [7:0] address, data_out;
  input  [7:0] data_in;
  output write, read, halted;

  parameter FETCH = 2'd0, OPERAND = 2'd1, EXECUTE = 2'd2, HALT = 2'd3;
  // operation codes
  localparam LDI = 4'd0, LDA = 4'd1, STA = 4'd2, ADD = 4'd3, SUB = 4'd4,
             JMP = 4'd5, JZ = 4'd6, JC = 4'd7, DEC = 4'd8, HLT = 4'd15;

  reg [1:0] state;        //> state clock clk rising, stage 1, domain clk
  reg [4:0] pc;           //> pc clock clk rising, start 00000
  reg [7:0] acc, operand; //> acc clock clk rising, stage 1 | operand clock clk rising
  reg [3:0] opcode;       //> opcode clock clk rising
  reg carry;              //> carry clock clk rising

  wire [7:0] instruction = program_byte(pc);
  wire zero = (acc == 0);
  reg taken;

  always @* begin
    taken = 1'b0;
    case (opcode)
      JMP: taken = 1'b1;
      JZ:  taken = zero;
      JC:  taken = carry;
    endcase
  end

  always @(posedge clk)
    if (reset) begin
      state <= FETCH; pc <= 0; acc <= 0; carry <= 0; opcode <= 0; operand <= 0;
    end else case (state)
      FETCH: begin
        opcode <= instruction[7:4];
        pc <= pc + 1;
        if (instruction[7:4] == HLT) state <= HALT;
        else state <= instruction[3] ? OPERAND : EXECUTE;
      end
      OPERAND: begin
        operand <= instruction;
        pc <= pc + 1'b1;
        state <= EXECUTE;
      end
      EXECUTE: begin
        state <= FETCH;
        case (opcode)
          LDI: acc <= operand;
          LDA: acc <= data_in;
          ADD: {carry, acc} <= acc + operand;
          SUB: {carry, acc} <= acc - operand;
          DEC: {carry, acc} <= acc - 8'd1;
          JMP, JZ, JC: if (taken) pc <= operand[4:0];
        endcase
      end
      default: ;
    endcase

  assign address  = operand;
  assign data_out = acc;
  assign write    = state == EXECUTE && opcode == STA;
  assign read     = state == EXECUTE && opcode == LDA;
  assign halted   = &state; //> state finding decoded-glitch possible hint

  function [7:0] program_byte;
    input [4:0] a;
    case (a)
      5'd0:  program_byte = {LDI, 4'b1000};
      5'd1:  program_byte = 8'd3;
      5'd2:  program_byte = {STA, 4'b1000};
      5'd3:  program_byte = 8'h90;
      5'd4:  program_byte = {LDA, 4'b1000};
      5'd5:  program_byte = 8'h80;
      5'd6:  program_byte = {SUB, 4'b1000};
      5'd7:  program_byte = 8'd40;
      5'd8:  program_byte = {JC, 4'b1000};
      5'd9:  program_byte = 8'd12;
      5'd10: program_byte = {JMP, 4'b1000};
      5'd11: program_byte = 8'd4;
      5'd12: program_byte = {STA, 4'b1000};
      5'd13: program_byte = 8'hA0;
      5'd14: program_byte = {HLT, 4'b0000};
      default: program_byte = {HLT, 4'b0000};
    endcase
  endfunction
endmodule

module lamp_port(clk, reset, enable, d, q);
  input clk, reset, enable;
  input [7:0] d;
  output [7:0] q;
  reg [7:0] q;  //> q clock clk rising, enable lamps.enable high
  always @(posedge clk)
    if (reset) q <= 8'h00;
    else if (enable) q <= d;
endmodule

module valve_timer(clk, reset, start, length, open);
  input clk, reset, start;
  input [7:0] length;
  output open;
  reg [7:0] left;  //> left clock clk rising
  always @(posedge clk)
    if (reset) left <= 0;
    else if (start) left <= length;
    else if (open) left <= left - 1;
  assign open = left != 0;   //> left finding decoded-glitch hint
endmodule
