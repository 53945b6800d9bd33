//>> because the port's reset is long, and its own is not
module with_port(input clk, rst, output reg [2:0] n);  //> rst quiet
  wire clear = rst | (n[2] & n[0]);  //> n finding glitch-into-reset
  always @(posedge clk or posedge clear)
    if (clear) n <= 0;  //> clear finding decoded-reset
    else n <= n + 1;
endmodule
