//>> because an asynchronous control acts as a level, also at time 0: the register starts at what it loads (rule 13)
module loaded(input clk, input rst_n, output reg [3:0] n);  //> rst_n finding reset-release
  always @(posedge clk or negedge rst_n)
    if (!rst_n) n <= 4'd5;  //> n start 0101, start-from reset, asynchronous rst_n low
    else n <= n + 1;
endmodule
