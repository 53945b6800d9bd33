// A counter of floors for a goods lift: three flip-flops, each clocked by the one before. How long each takes is known
// only from its fastest to its slowest (foretick.json beside this file), so every change has a span in which it may come,
// and the span grows from stage to stage.
module goods_lift(input step, output reg [2:0] floor);
  initial floor = 0;
  always @(negedge step) floor[0] <= ~floor[0];
  always @(negedge floor[0]) floor[1] <= ~floor[1];
  always @(negedge floor[1]) floor[2] <= ~floor[2];
endmodule
