//>> because bits of which one changes at a time may each come a period later: the old code or the new one is read
module gray_count(input clk_a, clk_b, output reg [2:0] q);
  reg [2:0] count = 0, code = 0, first = 0;
  wire [2:0] next = count + 3'd1;
  initial q = 0;
  always @(posedge clk_a) begin
    count <= next;
    code <= next ^ (next >> 1);
  end
  always @(posedge clk_b) begin
    first <= code;  //> first quiet, crossing protected gray
    q <= first;
  end
endmodule
