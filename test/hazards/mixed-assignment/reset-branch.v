//>> because the reset branch uses = where the other uses <=
module counter(input clk, input rst, output reg [1:0] n);
  always @(posedge clk)
    if (rst) n = 2'd0;
    else n <= n + 2'd1;  //> n finding mixed-assignment warning
endmodule
