//>> because the address follows a pointer that comes over in binary: it may be seen at a value it never had, so the word may not be written yet
module binary_queue(input w_clk, r_clk, push, pop, input [3:0] d, output reg [3:0] q);
  reg [3:0] words [0:3];
  reg [2:0] wb = 0, rb = 0;
  reg [2:0] w1 = 0, w2 = 0;
  always @(posedge w_clk) if (push) begin words[wb[1:0]] <= d; wb <= wb + 1; end
  always @(posedge r_clk) begin
    w1 <= wb;                                          //> w1 finding bus-crossing
    w2 <= w1;
    if (pop && rb != w2) rb <= rb + 1;
    q <= words[rb[1:0]];                               //> q finding bus-crossing | words finding decoded-glitch
  end
endmodule
