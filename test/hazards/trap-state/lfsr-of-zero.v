//>> because a linear feedback shift register of zeros stays there, and an initial value keeps it out until an upset
module noise(input clk, output reg [3:0] n);
  initial n = 1;
  always @(posedge clk) n <= {n[2:0], n[3] ^ n[2]};  //> n finding trap-state hint, counts lfsr
endmodule
