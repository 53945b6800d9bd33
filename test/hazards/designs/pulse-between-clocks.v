//>> because a pulse carried over as a change
module pulse_crossing(input clk_a, input clk_b, input pulse_a, output pulse_b);
  reg t = 0; reg [2:0] s = 0;
  always @(posedge clk_a) if (pulse_a) t <= ~t;
  always @(posedge clk_b) s <= {s[1:0], t};
  assign pulse_b = s[2] ^ s[1];  //> ^ finding decoded-glitch hint
endmodule
