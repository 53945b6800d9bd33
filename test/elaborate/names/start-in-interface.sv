//>> because a variable of an interface is one variable, wherever it is assigned: its declaration says how it starts
interface cell_(input clk);
  logic q = 1'b1; //> q start 1, start-from text, clock clk rising
endinterface
module toggles(cell_ c);
  always @(posedge c.clk) c.q <= ~c.q;
endmodule
module top(input clk, output q);
  cell_ c(.clk(clk));
  toggles t(.c(c));
  assign q = c.q;
endmodule
