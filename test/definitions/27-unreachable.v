//>> because only what can be reached counts: this register never moves two bits at once (rule 27)
module ring_of_three(input clk, output wire odd);
  reg [1:0] s;
  initial s = 2'd0;
  always @(posedge clk)
    case (s)
      2'd0: s <= 2'd1;
      2'd1: s <= 2'd3;
      2'd3: s <= 2'd2;
      default: s <= 2'd0;
    endcase
  assign odd = s[0] ^ s[1];  //> odd quiet
endmodule
