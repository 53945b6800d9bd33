//>> because a gate from one register does not pulse
module registered_gate(input clk, input rst, input d, output reg q);
  reg [1:0] state;
  reg open;
  always @(posedge clk)
    if (rst) begin
      state <= 0;
      open <= 0;
    end else begin
      state <= state + 1;
      open <= (state == 2);
    end
  always @* if (open) q = d;  //> open quiet
endmodule
