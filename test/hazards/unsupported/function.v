//>> because a function is not read yet, and the rest of the module still is
module with_function(input clk, input d, output reg q, output y);
  function turned(input a);  //> function finding unsupported
    turned = ~a;
  endfunction
  assign y = d;
  always @(posedge clk) q <= d;  //> q stage 1
endmodule
