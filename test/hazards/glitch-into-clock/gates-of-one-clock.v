//>> because two flip-flops of one clock never change quite together
module gates(input clk, output reg flag);
  reg a, b;
  initial {a, b, flag} = 0;
  always @(posedge clk) begin
    a <= ~a;
    b <= b ^ a;
  end
  wire strobe;
  and (strobe, a, b);  //> strobe finding glitch-into-clock possible warning
  always @(posedge strobe) flag <= ~flag;  //> strobe finding derived-clock warning
endmodule
