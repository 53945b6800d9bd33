//>> because a list that names all inputs is as good as @*, whichever parts of a vector are read
module complete(input [7:0] v, input s, t, output reg y);
  always @(v, s or t) begin  //> v quiet
    y = v[3];
    if (s) y = v[7] ^ t;
  end
endmodule
