//>> because four latches written as two vectors are four latches
module four(input [3:0] s_n, input [3:0] r_n, output [3:0] q, output [3:0] q_n);  //> q latch intended, gate none
  assign q = ~(s_n & q_n);  //> q quiet
  assign q_n = ~(r_n & q);
endmodule
