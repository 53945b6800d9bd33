//>> because the test bench lets the reset go 2 ns before the edge at 45 ns
//>> project {"delays":"s","delaySets":{"s":{"clockToQ":{"first":1000},"clear":1000,"recovery":4000}},"top":"one"}
`timescale 1ns/1ns
module one(input clk, rst, output reg q);  //> rst finding reset-release
  always @(posedge clk or posedge rst)  //> clk finding recovery-removal certain
    if (rst) q <= 0;
    else q <= ~q;
endmodule
module bench;
  reg clk, rst;
  wire q;
  one u(.clk(clk), .rst(rst), .q(q));
  initial begin clk = 0; forever #5 clk = ~clk; end
  initial begin rst = 1; #43 rst = 0; end
endmodule
