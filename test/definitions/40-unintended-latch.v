//>> because a branch that forgets one target while the others are complete makes a latch nobody meant (rule 40)
module forgot(input [1:0] s, input a, b, output reg y, z);
  always @*
    case (s)
      2'd0: begin y = a; z = b; end
      2'd1: begin y = b; z = a; end
      2'd2: y = a;  //> y finding unintended-latch
      default: begin y = 0; z = 0; end
    endcase
endmodule
