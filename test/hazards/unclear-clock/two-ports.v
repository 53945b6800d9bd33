//>> because two ports, neither used elsewhere nor named as a clock, leave the question open
module open_question(input a, input b, input d, output reg q);
  wire g = a & b;
  always @(posedge g) q <= d;  //> g finding unclear-clock information
endmodule
