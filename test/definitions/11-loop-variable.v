//>> because loop variables and temporaries that are written before they are read are no registers (rule 11)
module parity(input clk, input [7:0] d, output reg odd);
  integer i;
  reg sum;
  always @(posedge clk) begin
    sum = 0;  //> sum no register, quiet
    for (i = 0; i < 8; i = i + 1) sum = sum ^ d[i];  //> i no register
    odd <= sum;  //> odd stage 1
  end
endmodule
