//>> because ports between do not either: two instances of a stage that writes by = race
module stage(input clk, input d, output reg q);
  always @(posedge clk) q = d;  //> q finding mixed-assignment
endmodule
module two_stages(input clk, input d, output q);
  wire between;
  stage first(clk, d, between);
  stage second(clk, between, q);
endmodule
