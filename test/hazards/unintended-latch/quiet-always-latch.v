//>> because always_latch says what is meant, with a clear beside the gate
module stated(input open, input clear, input d, output logic q);
  always_latch
    if (clear) q = 1'b0;  //> q quiet
    else if (open) q = d;  //> q quiet
endmodule
