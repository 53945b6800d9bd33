//>> because a port that first in priority forces constants in every register of a process is a synchronous reset; a comparison is a clear (rule 14)
module decade(input clk, input rst, output reg [3:0] n);
  always @(posedge clk)
    if (rst) n <= 0;  //> n synchronous rst high
    else if (n == 9) n <= 0;
    else n <= n + 1;
endmodule
