//>> because the input moves 1 ns before an edge of which nobody has said where it stands
//>> project {"delays":"s","delaySets":{"s":{"clockToQ":{"first":1000},"setup":3000,"hold":500}},"clocks":{"clk":{"periodPs":20000}},"inputs":{"d":{"levels":[{"atPs":0,"value":"0"},{"atPs":49000,"value":"1"}]}}}
module late(input clk, input d, output reg q);
  always @(posedge clk) q <= d;  //> q finding setup-hold possible
endmodule
