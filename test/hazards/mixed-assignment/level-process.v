//>> because <= stands in a process that is meant as logic
module level(input a, b, output reg y);
  always @(a or b) y <= a & b;  //> y finding mixed-assignment
endmodule
