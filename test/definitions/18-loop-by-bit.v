//>> because a loop is decided per bit: a carry that runs along a vector is none (rule 18)
module carry(input [3:0] g, input first, output [4:0] c);
  assign c[0] = first;
  assign c[4:1] = c[3:0] & g;  //> c quiet
endmodule
