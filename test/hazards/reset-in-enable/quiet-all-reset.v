//>> because every target has its value under the reset, however it is spelled
module all_reset(input clk, input rst_n, input en, input d, output reg a, output reg [1:0] b);  //> rst_n finding reset-release
  always @(posedge clk or negedge rst_n)
    if (~rst_n) {a, b} <= 3'b101;
    else begin
      a <= d;
      if (en) b <= {a, d};  //> b quiet
    end
endmodule
