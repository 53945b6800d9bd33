//>> because a twisted ring of three stages has a second loop of two values, and nothing says where it starts
module twisted(input clk, output reg [2:0] n);  //> n finding unknown-start
  always @(posedge clk) n <= {n[1:0], ~n[2]};  //> n finding trap-state warning
endmodule
