//>> because a test against its edge makes no register: nothing is guessed (rule 12)
module mismatch(input clk, input rst_n, input d, output reg q);
  always @(posedge clk or negedge rst_n)
    if (rst_n) q <= 0;  //> rst_n finding unsupported
    else q <= d;  //> q no register
endmodule
