//>> because the second process reads what the first writes at once, by way of logic
module racing(input clk, input d, output reg late);
  reg early;
  wire turned = ~early;
  always @(posedge clk) early = d;  //> early finding mixed-assignment warning
  always @(posedge clk) late <= turned & d;
endmodule
