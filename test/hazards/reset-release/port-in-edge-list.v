//>> because a reset port ends whenever its driver likes, also at an edge of the clock: told once, not per register (rule 36)
module raw(input clk, input rst_n, input d, output reg a, output reg [3:0] n);  //> rst_n finding reset-release information
  always @(posedge clk or negedge rst_n) if (!rst_n) a <= 0; else a <= d;  //> a#2 quiet
  always @(posedge clk or negedge rst_n)
    if (!rst_n) n <= 0;
    else n <= n + 1;  //> n quiet
endmodule
