//>> because a function that gives no result on some path gives x there (common practice: synthesis refuses it)
module on_some_paths(input clk, input sel, input d, output reg q);
  function picked(input s, input a);  //> picked finding unsupported
    if (s) picked = a;
  endfunction
  always @(posedge clk) q <= picked(sel, d);  //> q stage 1
endmodule
