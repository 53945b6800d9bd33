//>> because a macro is used that nothing defines
`define LAST 4'd9
module digit(input clk, input clear, output reg [3:0] n);
  always @(posedge clk)
    if (clear || n == `FINAL) n <= 4'd0;  //> `FINAL finding unresolved-name error
    else n <= n + 4'd1;
endmodule
