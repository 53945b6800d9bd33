//>> because exactly the recovery time stands between
//>> project {"delays":"s","delaySets":{"s":{"clockToQ":{"first":1000},"clear":1000,"recovery":5000,"removal":2000}},"clocks":{"clk":{"periodPs":20000}},"inputs":{"clr":{"levels":[{"atPs":0,"value":"1"},{"atPs":65000,"value":"0"}]},"d":"1"}}
module one(input clk, clr, d, output reg q);  //> clr finding reset-release
  always @(posedge clk or posedge clr)  //> clk quiet
    if (clr) q <= 0;
    else q <= d;
endmodule
