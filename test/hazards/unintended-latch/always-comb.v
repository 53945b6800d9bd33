//>> because always_comb promises logic
module promised(input en, input d, output logic q);
  always_comb if (en) q = d;  //> q finding unintended-latch warning
endmodule
