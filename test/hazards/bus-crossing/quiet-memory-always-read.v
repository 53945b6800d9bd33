//>> because definition 39: a word whose address follows a synchronized Gray pointer has been written before it is read; that it is read at every edge, asked for or not, changes nothing
// The output of a queue between two clocks shows the oldest word at all times; its address moves only while it is not empty.
module shown_queue(input w_clk, r_clk, push, pop, input [3:0] d, output reg [3:0] q, output full_n, empty_n);
  reg [3:0] words [0:3];
  reg [2:0] wb = 0, wg = 0, rb = 0, rg = 0;
  reg [2:0] w1 = 0, w2 = 0, r1 = 0, r2 = 0;            //> w1 crossing protected gray | r1 crossing protected gray
  reg empty = 1, full = 0;
  wire [2:0] wn = wb + (push & ~full);
  wire [2:0] rn = rb + (pop & ~empty);
  assign full_n = ~full;
  assign empty_n = ~empty;
  always @(posedge w_clk) begin
    wb <= wn; wg <= wn ^ (wn >> 1); {r2, r1} <= {r1, rg};
    full <= (wn ^ (wn >> 1)) == {~r2[2:1], r2[0]};
    if (push & ~full) words[wb[1:0]] <= d;
  end
  always @(posedge r_clk) begin
    rb <= rn; rg <= rn ^ (rn >> 1); {w2, w1} <= {w1, wg};
    empty <= (rn ^ (rn >> 1)) == w2;
    q <= words[rb[1:0]];                               //> q crossing protected gray, quiet
  end
endmodule
