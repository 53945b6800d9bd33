//>> because `if (en) q = d;` alone is a latch somebody meant (rule 40)
module meant(input en, input d, output reg q);
  always @* if (en) q = d;  //> q latch intended, quiet
endmodule
