//>> because a latch that may take what it holds keeps it: that is what it is for
module keeps(input open, input load, input set, input d, output reg q, output reg seen);
  always @* if (open) q = load ? d : q;  //> q quiet
  always @* if (open) seen = seen | set;  //> seen quiet
endmodule
