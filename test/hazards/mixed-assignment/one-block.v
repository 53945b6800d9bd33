//>> because one variable gets both kinds
module both_kinds(input clk, input a, b, output reg q);
  always @(posedge clk) begin
    q = a;
    if (b) q <= ~a;  //> q finding mixed-assignment warning
  end
endmodule
