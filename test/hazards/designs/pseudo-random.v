//>> because a shift register with feedback, cleared to a start value
module lfsr(input clk, input rst, output reg [7:0] q, output out);
  always @(posedge clk) if (rst) q <= 8'h01; else q <= {q[6:0], q[7] ^ q[5] ^ q[4] ^ q[3]};  //> q finding trap-state
  assign out = q[7];
endmodule
