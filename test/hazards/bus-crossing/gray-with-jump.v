//>> because one step of a code that changes two bits spoils it
module jump(input clk_a, clk_b, rst, back, output reg [1:0] q);
  reg [1:0] code, first;
  always @(posedge clk_a)
    if (rst) code <= 0;
    else
      case (code)
        2'b00: code <= 2'b01;
        2'b01: code <= back ? 2'b10 : 2'b11;
        2'b11: code <= 2'b10;
        default: code <= 2'b00;
      endcase
  always @(posedge clk_b) begin
    first <= code;  //> first finding bus-crossing error
    q <= first;
  end
endmodule
