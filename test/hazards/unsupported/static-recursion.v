//>> because calls of a function that is not automatic share its variables (IEEE 1364-2005 10.4.1): it cannot call itself
module static_recursion(input clk, input [3:0] d, output reg q);
  function parity(input [3:0] word);
    parity = word[0] ^ (word >> 1 == 0 ? 1'b0 : parity(word >> 1));  //> parity#2 finding unsupported
  endfunction
  always @(posedge clk) q <= parity(d);  //> q stage 1
endmodule
