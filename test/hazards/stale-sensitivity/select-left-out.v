//>> because the data of a multiplexer are listed and its select is not
module select_left_out(input [1:0] pick, input [3:0] d, output reg y);
  always @(d)  //> d finding stale-sensitivity
    case (pick)
      2'd0: y = d[0];
      2'd1: y = d[1];
      2'd2: y = d[2];
      default: y = d[3];
    endcase
endmodule
