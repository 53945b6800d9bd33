//>> because a ring that shifts one 1 keeps whatever number of ones it has: here only an upset makes it another (Mano, Digital Design, ch. 6; from memory)
module ring(input clk, input rst, output reg [3:0] turn);
  always @(posedge clk) turn <= rst ? 4'b0001 : {turn[2:0], turn[3]};  //> turn finding trap-state hint, counts ring 4
endmodule
