//>> because at one instant every register first samples the values from before it (rule 34): a shift register shifts
module shifter(input clk, output reg a, b, c);
  initial {a, b, c} = 3'b100;
  always @(posedge clk) a <= c;  //> a quiet, ratio 3/1, duty 1/3
  always @(posedge clk) b <= a;  //> b ratio 3/1
  always @(posedge clk) c <= b;  //> c ratio 3/1
endmodule
