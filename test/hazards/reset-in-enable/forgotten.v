//>> because the branch of the reset sets one of two, so the other waits for the reset to end (rule 13)
module forgotten(input clk, input rst_n, input d, output reg a, output reg b);  //> rst_n finding reset-release
  always @(posedge clk or negedge rst_n)
    if (!rst_n) a <= 0;
    else begin
      a <= d;
      b <= a;  //> b finding reset-in-enable information, enable rst_n high
    end
endmodule
