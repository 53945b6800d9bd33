//>> because the clear lets go 1 ns behind an edge, and the set asks for 2 ns
//>> project {"delays":"s","delaySets":{"s":{"clockToQ":{"first":1000},"clear":1000,"removal":2000}},"clocks":{"clk":{"periodPs":20000,"phasePs":10000}},"inputs":{"clr":{"levels":[{"atPs":0,"value":"1"},{"atPs":51000,"value":"0"}]},"d":"1"}}
module one(input clk, clr, d, output reg q);  //> clr finding reset-release
  always @(posedge clk or posedge clr)  //> clk finding recovery-removal certain
    if (clr) q <= 0;
    else q <= d;
endmodule
