//>> because a target without a branch under an asynchronous reset is held by it: the reset is its enable (rule 13)
module left_out(input clk, input rst, input d, output reg a, output reg b);  //> rst finding reset-release
  always @(posedge clk or posedge rst)
    if (rst) a <= 0;
    else begin
      a <= d;  //> a asynchronous rst high, enable none
      b <= d;  //> b asynchronous none, enable rst low, finding reset-in-enable information
    end
endmodule
