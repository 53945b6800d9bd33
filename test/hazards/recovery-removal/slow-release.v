//>> because the register that releases the reset answers so late that the next edge comes too soon
//>> project {"delays":"s","delaySets":{"s":{"clockToQ":{"first":8000},"clear":1000,"recovery":4000}},"clocks":{"clk":{"periodPs":10000}},"inputs":{"go":{"levels":[{"atPs":0,"value":"0"},{"atPs":41000,"value":"1"}]}}}
module late_release(input clk, go, d, output reg q);
  reg run;
  initial run = 0;
  always @(posedge clk) run <= go;
  always @(posedge clk or negedge run)  //> clk finding recovery-removal certain
    if (!run) q <= 0;
    else q <= ~q;
endmodule
