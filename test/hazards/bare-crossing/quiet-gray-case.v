//>> because a code written out by hand is one too, and a synchronous reset is no step of it
module listed(input clk_a, clk_b, rst, step, output reg [1:0] q);
  reg [1:0] code, first;
  always @(posedge clk_a)
    if (rst) code <= 0;
    else if (step)
      case (code)
        2'b00: code <= 2'b01;
        2'b01: code <= 2'b11;
        2'b11: code <= 2'b10;
        default: code <= 2'b00;
      endcase
  always @(posedge clk_b) begin
    first <= code;  //> first quiet, crossing protected gray
    q <= first;
  end
endmodule
