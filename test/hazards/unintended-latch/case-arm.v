//>> because one arm forgets a target that all others set
module arm(input [1:0] s, input a, b, output reg y, z);
  always @*
    case (s)
      2'd0: begin y = a; z = b; end
      2'd1: begin y = b; z = a; end
      2'd2: z = a;  //> z finding unintended-latch warning
      default: begin y = 0; z = 0; end
    endcase
endmodule
