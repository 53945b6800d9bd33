//>> because the clear ends with the first flip-flop that answers it
module ten(input clk, output reg [3:0] n);
  initial n = 0;
  wire full = n == 4'd10;  //> n finding glitch-into-reset possible
  always @(posedge clk or posedge full)
    if (full) n <= 0;  //> full finding decoded-reset warning
    else n <= n + 1;
endmodule
