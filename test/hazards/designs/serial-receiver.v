//>> because a serial receiver that synchronizes its line first has nothing to be told
module uart_rx #(parameter DIV = 16) (input clk, input rst, input rx, output reg [7:0] data, output reg valid);
  reg [1:0] sync;
  always @(posedge clk) if (rst) sync <= 2'b11; else sync <= {sync[0], rx};
  reg [3:0] n; reg [7:0] count; reg busy; reg [7:0] sh;
  always @(posedge clk) begin
    valid <= 0;
    if (rst) begin busy <= 0; n <= 0; count <= 0; valid <= 0; data <= 0; sh <= 0; end
    else if (!busy) begin
      if (!sync[1]) begin busy <= 1; count <= DIV/2; n <= 0; end
    end else if (count == DIV-1) begin
      count <= 0; n <= n + 1;
      if (n == 9) begin busy <= 0; valid <= sync[1]; data <= sh; end
      else if (n != 0) sh <= {sync[1], sh[7:1]};
    end else count <= count + 1;
  end
endmodule
