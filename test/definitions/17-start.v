//>> because an active asynchronous control comes before an initial value, and that before the setting (rule 17)
module starts(input clk, input rst, output reg a, b, c);  //> rst finding reset-release
  initial {a, b} = 2'b00;
  always @(posedge clk or posedge rst) if (rst) a <= 1; else a <= ~a;  //> a start 1, start-from reset
  always @(posedge clk) b <= ~b;  //> b start 0, start-from text
  always @(posedge clk) c <= a;  //> c start 0, start-from assumed
endmodule
