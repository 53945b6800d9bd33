//>> because a latch that reads its own inverse turns over as long as it is open
module toggling(input run, input clear, output reg q);
  always @* if (clear) q = 0; else if (run) q = ~q;  //> q finding combinational-loop certain error
endmodule
