//>> because the logic stands in a module between the two, and the clock comes turned over
module parity(input [3:0] word, output odd); assign odd = ^word; endmodule
module receiver(input clk, input odd, output reg seen);
  always @(posedge clk) seen <= odd;  //> seen finding opposite-edges
endmodule
module link(input clk, input [3:0] d, output seen);
  reg [3:0] word;
  wire odd;
  always @(posedge clk) word <= d;
  parity p(word, odd);
  receiver r(~clk, odd, seen);
endmodule
