//>> because drivers that let go share a bus
module bus(input pick, input a, b, output y);
  assign y = pick ? a : 1'bz;
  assign y = pick ? 1'bz : b;  //> y quiet
endmodule
