//>> because the input moves exactly the setup time before the edge: that end of the window is free
//>> project {"delays":"s","delaySets":{"s":{"clockToQ":{"first":1000},"setup":3000,"hold":500}},"clocks":{"clk":{"periodPs":20000}},"inputs":{"d":{"levels":[{"atPs":0,"value":"0"},{"atPs":47000,"value":"1"},{"atPs":70500,"value":"0"}]}}}
module in_time(input clk, input d, output reg q);
  always @(posedge clk) q <= d;  //> q quiet
endmodule
