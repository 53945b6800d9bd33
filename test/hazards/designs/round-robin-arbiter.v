//>> because the turn moves to the one behind whoever was served: masks, a loop with a flag, one-hot grant
module round_robin_arbiter #(parameter N = 4) (
  input clk, reset,
  input [N-1:0] request,
  output reg [N-1:0] grant   //> grant clock clk rising, form registered
);
  reg [N-1:0] mask;          //> mask clock clk rising
  reg [N-1:0] pick;
  integer i;
  reg found;
  always @* begin : choose
    pick = {N{1'b0}};
    found = 1'b0;
    for (i = 0; i < N; i = i + 1)
      if (!found && request[i] && mask[i]) begin
        pick[i] = 1'b1;
        found = 1'b1;
      end
    for (i = 0; i < N; i = i + 1)
      if (!found && request[i]) begin
        pick[i] = 1'b1;
        found = 1'b1;
      end
  end
  always @(posedge clk)
    if (reset) begin
      grant <= 0;
      mask <= ~0;
    end
    else begin
      grant <= pick;
      if (|pick) mask <= ~(pick | (pick - 1'b1));
    end
endmodule
