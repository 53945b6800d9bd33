//>> because the arm that goes round is shut off by a gate further on while it is taken
module guarded_mux(input s, input d, output y);
  wire m;
  assign m = s ? ~y : d;  //> y quiet
  nor (y, m, s);  //> m quiet
endmodule
