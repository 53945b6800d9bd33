//>> because where nothing tells which operand is the clock, the tool asks (rule 4)
module unclear(input a, input b, input d, output reg q);
  wire both = a & b;
  always @(posedge both) q <= d;  //> q root none | both finding unclear-clock information
endmodule
