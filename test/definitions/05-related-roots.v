//>> because two roots are unrelated unless foretick.json relates them: then there is no crossing (rule 5)
//>> project {"related": [["clk", "other"]]}
module related(input clk, input other, output reg a, b);
  initial {a, b} = 0;
  always @(posedge clk) a <= ~a;  //> a domain clk
  always @(posedge other) b <= a;  //> b quiet
endmodule
