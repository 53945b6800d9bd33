//>> because a parenthesis stays open at the end of its statement, and the statement behind it is read
module parity(input [3:0] d, output y, output z);
  assign y = (d[0] ^ (d[1] ^ d[2]);  //> ) finding syntax error
  assign z = d[3];  //> z quiet
endmodule
