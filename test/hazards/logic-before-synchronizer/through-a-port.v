//>> because the synchronizer does not see what stands before it in another module
module chosen(input clk_a, clk_b, pick, output q);
  reg up = 0, down = 1, choice = 0;
  always @(posedge clk_a) begin
    up <= ~up;
    down <= up;
    choice <= pick;
  end
  two_flops over(clk_b, choice ? up : down, q);  //> choice finding decoded-glitch
endmodule
module two_flops(input clk, d, output reg q);
  reg first = 0;
  initial q = 0;
  always @(posedge clk) {q, first} <= {first, d};  //> first finding logic-before-synchronizer
endmodule
