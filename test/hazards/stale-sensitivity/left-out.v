//>> because the list names one of two inputs: by IEEE 1364-2005 9.7 the process does not run when the other changes
module left_out(input a, input b, output reg y);
  always @(a) y = a & b;  //> a finding stale-sensitivity warning
endmodule
