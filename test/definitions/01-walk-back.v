//>> because a buffer, a plain assignment and a port pass; an inverter passes and turns the edge (rule 1)
module leaf(input c, input d, output reg q);
  always @(posedge c) q <= d;  //> q clock clk rising, root clk rising, stage 1, domain clk
endmodule

module walk(input clk, input d, output q, output reg turned, output reg passed);
  wire renamed = clk;
  wire upside = ~renamed;
  wire buffered;
  buf (buffered, renamed);
  leaf u(.c(renamed), .d(d), .q(q));
  always @(posedge upside) turned <= d;  //> turned root clk falling, stage 1
  always @(posedge buffered) passed <= d;  //> passed root clk rising, stage 1
endmodule
