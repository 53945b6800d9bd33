//>> because a generate loop turns no more often than the limit allows
//>> limit unroll=4
module lanes(input [7:0] a, output [7:0] y);
  genvar i;
  generate for (i = 0; i < 8; i = i + 1) begin : lane  //> for finding limit-reached warning
    assign y[i] = ~a[i];
  end endgenerate
endmodule
