//>> because nobody has said when the reset lets go: the assumed instant is ours
//>> project {"delays":"s","delaySets":{"s":{"clockToQ":{"first":1000},"clear":1000,"recovery":9000,"removal":9000}},"clocks":{"clk":{"periodPs":20000}}}
module one(input clk, rst, d, output reg q);  //> rst finding reset-release
  always @(posedge clk or posedge rst)  //> clk quiet
    if (rst) q <= 0;
    else q <= d;
endmodule
