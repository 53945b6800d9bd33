//>> because a port outside every clock is brought in by two flip-flops, which are there to be hit
//>> project {"delays":"s","delaySets":{"s":{"clockToQ":{"first":1000},"setup":3000,"hold":500}},"clocks":{"clk":{"periodPs":20000}},"inputs":{"d":{"levels":[{"atPs":0,"value":"0"},{"atPs":49000,"value":"1"}]}}}
module brought_in(input clk, input d, output reg q);
  reg first;
  always @(posedge clk) {q, first} <= {first, d};  //> q quiet
endmodule
