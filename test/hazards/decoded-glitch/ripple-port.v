//>> because decoded outputs of a ripple counter carry spikes (Philips 74HC393; Motorola DL129)
module belt(input bottle, output reg [2:0] n, output half, output none);
  initial n = 0;
  always @(negedge bottle) n[0] <= ~n[0];
  always @(negedge n[0])   n[1] <= ~n[1];  //> n[0] finding ripple-chain warning
  always @(negedge n[1])   n[2] <= ~n[2];
  assign half = (n == 4);  //> n finding decoded-glitch certain hint
  assign none = ~(n[2] | n[1] | n[0]);
endmodule
