//>> because state bits that change together can pass the state that clears
module state_clear(input clk, input rst, output reg [1:0] pulses);
  reg [1:0] state;
  always @(posedge clk) if (rst) state <= 0; else state <= state + 1;
  wire idle_n = ~(~state[0] & ~state[1]);  //> state finding glitch-into-reset possible warning
  always @(negedge clk or negedge idle_n) if (!idle_n) pulses <= 0; else pulses <= pulses + 1;
endmodule
