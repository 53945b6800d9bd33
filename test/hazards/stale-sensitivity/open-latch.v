//>> because a latch that does not list its data takes what it has at the opening and not what comes while it is open
module open_latch(input gate, input d, output reg q);
  always @(gate) if (gate) q = d;  //> gate finding stale-sensitivity
endmodule
