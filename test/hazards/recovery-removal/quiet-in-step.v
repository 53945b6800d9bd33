//>> because a release through two flip-flops has nearly a period
//>> project {"delays":"s","delaySets":{"s":{"clockToQ":{"first":1000},"clear":1000,"recovery":5000,"removal":500}},"clocks":{"clk":{"periodPs":20000}}}
module in_step(input clk, rst_n, output reg q);
  reg first, second;
  always @(posedge clk or negedge rst_n)  //> rst_n quiet
    if (!rst_n) {second, first} <= 0;
    else {second, first} <= {first, 1'b1};
  always @(posedge clk or negedge second)  //> clk quiet
    if (!second) q <= 0;
    else q <= ~q;
endmodule
