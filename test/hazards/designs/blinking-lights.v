//>> because the first divider of a course lab clocks a counter with a register: a chain of two
module lab_divider(input CLOCK_50, input [1:0] KEY, output [3:0] LEDR);  //> KEY finding reset-release
  reg [24:0] count;
  reg slow_clk;
  reg [3:0] led;
  wire rst_n = KEY[0];
  assign LEDR = led;
  always @(posedge CLOCK_50 or negedge rst_n)
    if (!rst_n) begin count <= 0; slow_clk <= 0; end
    else if (count == 25'd24999999) begin count <= 0; slow_clk <= ~slow_clk; end
    else count <= count + 1;
  always @(posedge slow_clk or negedge rst_n)  //> slow_clk finding ripple-chain warning
    if (!rst_n) led <= 0; else led <= led + 1;
endmodule
