//>> because a clear and an enable from elsewhere put nothing between the two
module held(input clk, input clear, input on, input d, output reg b);
  reg a;
  always @(posedge clk) a <= d;
  always @(negedge clk)
    if (clear) b <= 0;
    else if (on) b <= a;  //> b quiet
endmodule
