//>> because a clock that an interface hands on is the clock that was connected to it (IEEE 1800-2017 25.4)
interface stream(input logic clk, input logic rst_n);
  logic [3:0] data;
  logic valid, ready;
  modport source(input clk, rst_n, ready, output data, valid);
  modport sink(input clk, rst_n, data, valid, output ready);
endinterface

module sender(stream.source s);
  logic [3:0] count; //> count clock clk rising, asynchronous rst_n low, stage 1
  always @(posedge s.clk or negedge s.rst_n)
    if (!s.rst_n) count <= 0;
    else if (s.ready) count <= count + 1;
  assign s.data = count;
  assign s.valid = count[0];
endmodule

module receiver(stream.sink s, output logic [3:0] last); //> last clock clk falling, synchronous rst_n low
  assign s.ready = 1'b1;
  always @(negedge s.clk)
    if (!s.rst_n) last <= 0; //> last finding opposite-edges
    else if (s.valid) last <= s.data;
endmodule

module top(input clk, rst_n, output [3:0] last); //> rst_n finding reset-release
  stream s(.clk(clk), .rst_n(rst_n));
  sender u_sender(.s(s));
  receiver u_receiver(.s(s), .last(last));
endmodule
