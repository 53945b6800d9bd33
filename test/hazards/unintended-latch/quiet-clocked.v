//>> because a clocked process that leaves a way out keeps its value in a register
module hold(input clk, input load, input d, output reg q);
  always @(posedge clk)
    if (load) q <= d;  //> q quiet, no latch, enable load high
endmodule
