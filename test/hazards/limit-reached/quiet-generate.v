//>> because a generate loop with as many turns as the limit is built
//>> limit unroll=8
module lanes(input [7:0] a, output [7:0] y);
  genvar i;
  generate for (i = 0; i < 8; i = i + 1) begin : lane  //> for quiet
    assign y[i] = ~a[i];
  end endgenerate
endmodule
