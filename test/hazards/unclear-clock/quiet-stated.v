//>> because a person has said which it is
//>> project {"clockOperands": {"g": "a"}}
module stated(input a, input b, input d, output reg q);
  wire g = a & b;  //> & finding gated-clock possible
  always @(posedge g) q <= d;  //> g quiet | q root a rising
endmodule
