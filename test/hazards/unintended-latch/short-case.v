//>> because always_comb promises logic and one value of the select is missing
module decode(input [1:0] s, input a, output logic y);
  always_comb
    case (s)  //> case finding unintended-latch warning
      2'b00: y = a;
      2'b01: y = ~a;
      2'b10: y = 1'b0;
    endcase
endmodule
