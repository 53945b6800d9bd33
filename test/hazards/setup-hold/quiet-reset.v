//>> because while the reset holds the register, no edge samples
//>> project {"delays":"s","delaySets":{"s":{"clockToQ":{"first":1000},"setup":3000,"hold":500}},"clocks":{"clk":{"periodPs":20000}},"resets":{"rst":{"active":"high","periods":6}},"inputs":{"d":{"levels":[{"atPs":0,"value":"0"},{"atPs":49000,"value":"1"}]}}}
module held(input clk, rst, input d, output reg q);
  always @(posedge clk or posedge rst)
    if (rst) q <= 0;  //> rst quiet
    else q <= d;  //> q quiet
endmodule
