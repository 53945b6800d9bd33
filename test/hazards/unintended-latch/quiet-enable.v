//>> because a lone if without else is a latch somebody meant
module meant(input en, input [3:0] d, output reg [3:0] q);
  always @* if (en) q = d;  //> q quiet, latch intended
endmodule
