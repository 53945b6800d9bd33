//>> because a sum of 8 ns and a choice of 1 ns stand between registers 10 ns apart
//>> project {"delays":"s","delaySets":{"s":{"clockToQ":{"first":1000},"setup":1000,"logic":{"arithmetic":8000,"multiplexer":1000}}},"clocks":{"clk":{"periodPs":10000}},"inputs":{"hold":"0"}}
module long_way(input clk, input hold, output reg [1:0] sum);
  reg [1:0] n;
  initial {n, sum} = 0;
  always @(posedge clk) n <= {n[0], ~n[1]};
  always @(posedge clk) sum <= hold ? 2'd0 : n + 2'd3;  //> sum finding setup-hold
endmodule
