//>> because a peripheral whose registers are named by a package reads as its registers, and the clock that it makes as a derived one
//>> top pulse_unit
package pulse_registers;
  typedef logic [7:0] byte_t;
  typedef enum logic [1:0] {Control = 2'd0, Period = 2'd1, Width = 2'd2, Count = 2'd3} register_t;
  localparam byte_t PeriodStart = 8'd9;
  localparam byte_t WidthStart = PeriodStart / 2;
  localparam int Running = 0, Inverted = 1;
  function automatic byte_t limited(input byte_t value, input byte_t least);
    limited = value < least ? least : value;
  endfunction
endpackage
//>> file register_port.sv
interface register_port import pulse_registers::*; (input logic clk, rst);
  logic write;
  register_t which;
  byte_t value, seen;
  modport host(input clk, rst, seen, output write, which, value);
  modport unit(input clk, rst, write, which, value, output seen, import writes);
  function automatic logic writes(input register_t register);
    writes = write && which == register;
  endfunction
endinterface
//>> file pulse_counter.sv
module pulse_counter import pulse_registers::*; (
  input logic clk, rst,
  input byte_t period, width,
  input logic running,
  output byte_t count, //> count clock port.clk rising, synchronous port.rst high, stage 1, counts other
  output logic pulse //> pulse clock port.clk rising, synchronous port.rst high, stage 1
);
  always_ff @(posedge clk)
    if (rst) count <= '0;
    else if (running) count <= count >= period ? '0 : count + 8'd1;
  always_ff @(posedge clk)
    if (rst) pulse <= 1'b0;
    else pulse <= running && count < width;
endmodule
//>> file pulse_unit.sv
module pulse_unit import pulse_registers::*; (
  register_port.unit port,
  output logic pulse,
  output logic slow //> slow clock u_counter.pulse rising, root port.clk rising, stage 2, start 0
);
  byte_t control, period, width, count; //> control clock port.clk rising, synchronous port.rst high | period clock port.clk rising, synchronous port.rst high | width clock port.clk rising, synchronous port.rst high
  logic raw;
  always_ff @(posedge port.clk)
    if (port.rst) begin
      control <= '0;
      period <= PeriodStart;
      width <= WidthStart;
    end else begin
      if (port.writes(Control)) control <= port.value;
      if (port.writes(Period)) period <= limited(port.value, 8'd1);
      if (port.writes(Width)) width <= port.value;
    end
  pulse_counter u_counter(
    .clk(port.clk), .rst(port.rst), .running(control[Running]), .pulse(raw), .*);
  assign pulse = raw ^ control[Inverted]; //> raw finding decoded-glitch
  always_comb
    case (port.which)
      Control: port.seen = control;
      Period: port.seen = period;
      Width: port.seen = width;
      default: port.seen = count;
    endcase
  initial slow = 1'b0;
  always_ff @(posedge raw) slow <= ~slow; //> raw finding derived-clock
endmodule
