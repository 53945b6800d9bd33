//>> because ports hold still while registers move, and one bit has nothing to race with
module port_gate(input clk, input rst, input run, input d, output reg q);
  reg ready;
  always @(posedge clk) if (rst) ready <= 0; else ready <= ~ready;
  always @* if (run & ready) q = d;  //> ready quiet
endmodule
