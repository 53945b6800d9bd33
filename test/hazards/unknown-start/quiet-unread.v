//>> because what reaches no output and no control harms nobody
module unread(input clk, input d, output reg q);
  reg lone;
  always @(posedge clk) lone <= ~lone;  //> lone quiet
  always @(posedge clk) q <= d;
endmodule
