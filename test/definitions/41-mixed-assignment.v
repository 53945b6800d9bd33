//>> because one variable with both kinds of assignment has no single time of change (rule 41)
module mixed(input clk, input a, input b, output reg q);
  always @(posedge clk) begin
    q = a;
    if (b) q <= 0;  //> q finding mixed-assignment warning
  end
endmodule
