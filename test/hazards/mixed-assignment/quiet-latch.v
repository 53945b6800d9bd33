//>> because a latch somebody meant may be written by <= (IEEE 1364.1-2002, level-sensitive storage; from memory)
module held(input en, input d, output reg q);
  always @(en or d) if (en) q <= d;  //> q quiet, latch intended
endmodule
