//>> because two latches that one clock opens together are no master and slave
module together(input clk, input d, output reg q);
  reg m;
  always @* if (clk) m = d ^ q;  //> ^ finding combinational-loop certain
  always @* if (clk) q = m;
endmodule
