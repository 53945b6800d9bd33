//>> because foretick.json comes before every other way to tell the clock operand (rule 4)
//>> project {"clockOperands": {"both": "b"}}
module stated(input a, input b, input d, output reg q);
  wire both = a & b;  //> & finding gated-clock possible
  always @(posedge both) q <= d;  //> q root b rising
endmodule
