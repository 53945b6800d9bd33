//>> because logic alone has no clock to be told of
module alu(input [7:0] a, b, input [2:0] op, output reg [7:0] y, output zero, output reg carry);
  always @* begin
    carry = 0;
    case (op)
      0: {carry, y} = a + b;
      1: {carry, y} = a - b;
      2: y = a & b;
      3: y = a | b;
      4: y = a ^ b;
      5: y = a << b[2:0];
      6: y = a >> b[2:0];
      default: y = a;
    endcase
  end
  assign zero = ~|y;
endmodule
