//>> because a clear from a register does not pulse
module registered_clear(input clk, input rst, output reg [1:0] pulses);
  reg [1:0] state;
  reg clear;
  always @(posedge clk)
    if (rst) begin
      state <= 0;
      clear <= 1;
    end else begin
      state <= state + 1;
      clear <= (state == 2);
    end
  always @(posedge clk or posedge clear) if (clear) pulses <= 0; else pulses <= pulses + 1;  //> clear quiet
endmodule
