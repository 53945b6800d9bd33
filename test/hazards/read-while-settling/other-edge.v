//>> because between the edge that counts and the edge that reads lies half a period, 25 ns, and a decode of the whole count is registered there
//>> project {"delays":"flops","delaySets":{"flops":{"clockToQ":{"first":10000}}},"clocks":{"clk":{"periodPs":50000,"highPs":25000}}}
module other_edge(input clk, output reg full, output reg [1:0] low);
  wire [2:0] n;
  count c(clk, n);
  initial {full, low} = 0;
  always @(posedge clk) full <= n == 3'd0;  //> full finding read-while-settling certain warning, finding opposite-edges
  always @(posedge clk) low <= n[1:0];
endmodule
module count(input step, output [2:0] n);
  reg a, b, c;
  initial {a, b, c} = 0;
  always @(negedge step) a <= ~a;
  always @(negedge a) b <= ~b;  //> a finding ripple-chain
  always @(negedge b) c <= ~c;
  assign n = {c, b, a};
endmodule
