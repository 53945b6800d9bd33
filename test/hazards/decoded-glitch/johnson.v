//>> because a Johnson counter changes one bit at a time: decoding two neighbors is clean
//>> project {"strobes": ["third"]}
module twisted(input clk, input rst_n, output third);  //> rst_n finding reset-release
  reg [3:0] q;
  always @(posedge clk or negedge rst_n) if (!rst_n) q <= 0; else q <= {~q[0], q[3:1]};  //> q#2 finding trap-state
  assign third = q[2] & ~q[1];  //> third quiet
endmodule
