//>> because a latch that nobody meant is told once, not by what pulses into it
module forgotten(input clk, input rst, input go, output reg busy);
  reg [1:0] state, next;
  always @(posedge clk) if (rst) state <= 0; else state <= next;
  always @*
    case (state)  //> state finding decoded-glitch hint
      2'd0: begin next = {1'b0, go}; busy = 0; end
      2'd1: begin next = 2; busy = 1; end
      2'd2: begin
        busy = 1;
        if (go) next = 0;  //> next finding unintended-latch warning
      end
      default: begin next = 0; busy = 1; end
    endcase
endmodule
