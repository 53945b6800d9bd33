//>> because a process that reads what it makes is a loop too
module process_loop(input a, output reg y);
  wire back = y ^ a;  //> ^ finding combinational-loop
  always @* y = back & a;
endmodule
