//>> because a function without a result is of a later standard: it is not read, and the rest of the module still is
module with_function(input clk, input d, output reg q, output y);
  function void turned(input a);  //> function finding unsupported
    $display(a);
  endfunction
  assign y = d;
  always @(posedge clk) q <= d;  //> q stage 1
endmodule
