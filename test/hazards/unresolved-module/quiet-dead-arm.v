//>> because what a generate condition leaves out is not looked for
module dead_arm(input a, output y);
  localparam USE = 0;
  generate if (USE) begin : g
    missing_cell u(.i(a), .o(y));  //> u quiet
  end else begin : h
    assign y = a;
  end endgenerate
endmodule
