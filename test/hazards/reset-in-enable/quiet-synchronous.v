//>> because where the reset is sampled, leaving a register out of it is a choice that costs an enable and nothing else
module synchronous(input clk, input rst, input d, output reg a, output reg b);
  always @(posedge clk)
    if (rst) a <= 0;
    else begin
      a <= d;
      b <= a;  //> b quiet
    end
endmodule
