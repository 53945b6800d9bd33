//>> because a task of an interface assigns the interface's signals wherever it is called (IEEE 1800-2017 25.7)
interface mailbox(input logic clk);
  logic [7:0] letter;
  logic full;
  task put(input logic [7:0] value);
    letter <= value;
    full <= 1'b1;
  endtask
  modport writer(input clk, full, import put);
  modport reader(input letter, full);
endinterface
module writer(mailbox.writer m, input [7:0] value, input go);
  always @(posedge m.clk) if (go) m.put(value);
endmodule
module top(input clk, go, input [7:0] value, output [7:0] letter, output full);
  mailbox m(.clk(clk)); //> m no register
  writer w(.m(m), .value(value), .go(go));
  assign letter = m.letter;
  assign full = m.full;
endmodule
