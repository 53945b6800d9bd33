//>> because the same of JK flip-flops, tied to toggle
module jk(input j, k, clk, clr_n, output reg q, output qn);
  always @(negedge clk or negedge clr_n)  //> clk finding ripple-chain
    if (!clr_n) q <= 0;
    else case ({j,k}) 2'b01: q <= 0; 2'b10: q <= 1; 2'b11: q <= ~q; endcase
  assign qn = ~q;
endmodule
module jk_ripple(input clk, clr_n, output [2:0] q);  //> clr_n finding reset-release
  wire [2:0] qn;
  jk a(1'b1, 1'b1, clk, clr_n, q[0], qn[0]);
  jk b(1'b1, 1'b1, q[0], clr_n, q[1], qn[1]);
  jk c(1'b1, 1'b1, q[1], clr_n, q[2], qn[2]);
endmodule
