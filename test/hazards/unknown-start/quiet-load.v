//>> because an input can load what nothing resets
module loaded(input clk, input load, input [3:0] d, output reg [3:0] n);
  always @(posedge clk)
    if (load) n <= d;
    else n <= n - 4'd1;  //> n quiet
endmodule
