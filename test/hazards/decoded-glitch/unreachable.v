//>> because the codes that would be passed are never met: the counter goes 0, 1, 3 and back
//>> project {"strobes": ["seen"]}
module short_way(input clk, input rst, output seen);
  reg [1:0] n;
  always @(posedge clk)
    if (rst) n <= 0;
    else case (n)
      2'd0: n <= 2'd1;
      2'd1: n <= 2'd3;
      2'd3: n <= 2'd2;
      default: n <= 2'd0;
    endcase
  assign seen = (n == 2'd2);  //> seen quiet
endmodule
