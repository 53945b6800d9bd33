//>> because nothing acts on a plain output at once
module plain(input a, b, s, output y);
  assign y = (s & a) | (~s & b);  //> y quiet
endmodule
