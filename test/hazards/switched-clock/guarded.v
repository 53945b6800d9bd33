//>> because each clock waits until the other is off, seen through two flip-flops of its own: information (rule 9)
module guarded(input clk_a, input clk_b, input pick, input d, output reg q);  //> pick finding raw-input
  reg first_a, on_a, first_b, on_b;
  initial {first_a, on_a, first_b, on_b} = 0;
  always @(posedge clk_a) first_a <= ~pick & ~on_b;
  always @(negedge clk_a) on_a <= first_a;
  always @(posedge clk_b) first_b <= pick & ~on_a;
  always @(negedge clk_b) on_b <= first_b;
  wire c = (clk_a & on_a) | (clk_b & on_b);  //> clk_a finding switched-clock information
  always @(posedge c) q <= d;
endmodule
