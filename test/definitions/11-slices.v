//>> because bits that share process, clock and controls are one register; enables do not split (rule 11)
module slices(input clk, input en, input rst, input [3:0] d, output reg [3:0] q);  //> rst finding reset-release
  always @(posedge clk or posedge rst)
    if (rst) q <= 0;
    else begin
      q[1:0] <= d[1:0];
      if (en) q[3:2] <= d[3:2];
    end  
  wire [3:0] same = q;  //> q asynchronous rst high, start 0000, start-from reset
endmodule
