//>> because of one vector the reset sets the upper half alone
module half(input clk, input rst, input [3:0] d, output reg [3:0] q);  //> rst finding reset-release
  always @(posedge clk or posedge rst)
    if (rst) q[3:2] <= 0;
    else q <= d;  //> q finding reset-in-enable
endmodule
