//>> because of a reset that is held for three periods nobody has said when in the last one it lets go
//>> project {"delays":"s","delaySets":{"s":{"clockToQ":{"first":1000},"clear":1000,"recovery":9000,"removal":9000}},"clocks":{"clk":{"periodPs":20000,"phasePs":10000}},"resets":{"rst":{"active":"high","periods":3}}}
module one(input clk, rst, d, output reg q);
  always @(posedge clk or posedge rst)  //> clk quiet
    if (rst) q <= 0;
    else q <= d;
endmodule
