//>> because a generate loop makes one chain, however many turns it takes
module rippled(input clk, output [4:0] q);
  wire [5:0] c = {q, clk};
  reg [4:0] r;
  assign q = r;
  initial r = 0;
  genvar i;
  generate for (i = 0; i < 5; i = i + 1) begin : stage
    always @(negedge c[i]) r[i] <= ~r[i];  //> c finding ripple-chain
  end endgenerate
endmodule
