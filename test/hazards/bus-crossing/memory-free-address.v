//>> because a word that another clock may be writing is read at an address that asks nobody: its bits may be of two values
module free_reader(input w_clk, r_clk, we, input [3:0] d, output reg [3:0] q);
  reg [3:0] words [0:3];
  reg [1:0] wa = 0, ra = 0;
  always @(posedge w_clk) if (we) begin words[wa] <= d; wa <= wa + 1; end
  always @(posedge r_clk) begin
    ra <= ra + 1;
    q <= words[ra];                                    //> q finding bus-crossing | words finding decoded-glitch
  end
endmodule
