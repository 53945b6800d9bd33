//>> because a request bus of one requester and two targets reads as the flip-flops that its modules describe, all on the clock of the top
//>> top lane
package lane_types;
  localparam int AddressWidth = 4;
  typedef logic [AddressWidth-1:0] address_t;
  typedef logic [7:0] payload_t;
  typedef enum logic [1:0] {Idle, Ask, Wait, Done} phase_t;
  typedef enum logic {Read, Write = 1'b1} access_t;
  function automatic logic is_mine(input address_t address, input logic upper);
    is_mine = address[AddressWidth-1] == upper;
  endfunction
  function automatic phase_t following(input phase_t phase, input logic start, answered);
    case (phase)
      Idle: following = start ? Ask : Idle;
      Ask: following = Wait;
      Wait: following = answered ? Done : Wait;
      default: following = Idle;
    endcase
  endfunction
endpackage
//>> file lane_bus.sv
interface lane_bus import lane_types::*; #(parameter type DATA = payload_t) (input logic clk, rst_n);
  logic ask;
  access_t access;
  address_t address;
  DATA sent;
  logic [1:0] answered;
  DATA low, high;
  modport requester(input clk, rst_n, answered, low, high, output ask, access, address, sent);
  modport lower(input clk, rst_n, ask, access, address, sent, output low, import wants);
  modport upper(input clk, rst_n, ask, access, address, sent, output high, import wants);
  function automatic logic wants(input logic half);
    wants = ask && is_mine(address, half);
  endfunction
endinterface
//>> file asker.sv
module asker
  import lane_types::*;
(
  lane_bus.requester bus,
  input logic start,
  input address_t first,
  output payload_t sum //> sum clock clk rising, asynchronous rst_n low, stage 1, start 00000000
);
  phase_t phase; //> phase clock clk rising, asynchronous rst_n low, stage 1, start 00
  address_t next; //> next clock clk rising, asynchronous rst_n low, stage 1, start 0000
  logic answered;
  assign answered = |bus.answered;
  always_ff @(posedge bus.clk or negedge bus.rst_n)
    if (!bus.rst_n) begin
      phase <= Idle;
      next <= '0;
      sum <= '0;
    end else begin
      phase <= following(phase, start, answered);
      if (phase == Idle) next <= first;
      else if (phase == Done) next <= next + 1'b1;
      if (phase == Wait && answered) sum <= sum + (next[AddressWidth-1] ? bus.high : bus.low);
    end
  assign bus.ask = phase == Ask;
  assign bus.access = Read;
  assign bus.address = next;
  assign bus.sent = 8'd0;
endmodule
//>> file holder.sv
module holder
  import lane_types::*;
#(
  parameter logic HALF = 1'b0
) (
  interface bus,
  output logic answered, //> answered clock clk rising, asynchronous rst_n low, stage 1
  output payload_t held //> held no register
);
  payload_t word; //> word clock clk rising, asynchronous rst_n low, stage 1, start 00010001
  always_ff @(posedge bus.clk or negedge bus.rst_n)
    if (!bus.rst_n) begin
      word <= 8'h11;
      answered <= 1'b0;
    end else begin
      answered <= bus.wants(HALF);
      if (bus.wants(HALF) && bus.access == Write) word <= bus.sent;
    end
  assign held = word;
endmodule
//>> file lane.sv
module lane
  import lane_types::*;
(
  input logic clk,
  input logic rst_n, //> rst_n finding reset-release
  input logic start,
  input address_t first,
  output payload_t sum
);
  lane_bus bus(.*);
  asker u_asker(.bus(bus.requester), .start, .first, .sum);
  holder #(.HALF(1'b0)) u_low(.bus(bus.lower), .answered(bus.answered[0]), .held(bus.low));
  holder #(.HALF(1'b1)) u_high(.bus(bus.upper), .answered(bus.answered[1]), .held(bus.high));
endmodule
