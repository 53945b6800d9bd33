//>> because two cross-guarded falling-edge enables around an AND-OR of two clocks are a sound switch (rule 9)
module switcher(input fast, input slow, input pick, input d, output reg q);  //> pick finding raw-input
  reg on_fast, on_slow;
  initial {on_fast, on_slow} = 0;
  always @(negedge fast) on_fast <= pick & ~on_slow;  //> on_fast finding bare-crossing
  always @(negedge slow) on_slow <= ~pick & ~on_fast;  //> on_slow finding bare-crossing
  wire chosen = (fast & on_fast) | (slow & on_slow);  //> fast finding switched-clock information
  always @(posedge chosen) q <= d;  //> chosen kind switched sound
endmodule
