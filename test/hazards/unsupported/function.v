//>> because an argument handed over by reference is not read: the function is said to be left out, and the rest of the module still is read
module with_function(input clk, input d, output reg q, output y);
  function turned(ref a);  //> function finding unsupported
    turned = !a;
  endfunction
  assign y = d;
  always @(posedge clk) q <= d;  //> q stage 1
endmodule
