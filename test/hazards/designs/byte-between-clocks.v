//>> because four registers and two rows of flip-flops carry a byte between clocks
module handshake(input clk_a, input clk_b, input rst, input send, input [7:0] data, output reg [7:0] got, output reg valid);  //> rst finding reset-release
  reg req; reg [7:0] hold; reg a1, a2; reg b1, b2, b3; reg ack;
  always @(posedge clk_a or posedge rst)
    if (rst) begin req <= 0; a1 <= 0; a2 <= 0; hold <= 0; end
    else begin
      a1 <= ack; a2 <= a1;
      if (send && req == a2) begin hold <= data; req <= ~req; end
    end
  always @(posedge clk_b or posedge rst)
    if (rst) begin b1 <= 0; b2 <= 0; b3 <= 0; ack <= 0; got <= 0; valid <= 0; end
    else begin
      b1 <= req; b2 <= b1; b3 <= b2; valid <= 0;
      if (b2 != b3) begin got <= hold; valid <= 1; ack <= b2; end
    end
endmodule
