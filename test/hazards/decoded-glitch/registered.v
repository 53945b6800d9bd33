//>> because a register behind the decode, looking one count ahead, gives the same without a pulse
//>> project {"strobes": ["hit"]}
module ahead(input clk, output reg hit);
  reg [3:0] n;
  initial {n, hit} = 0;
  always @(posedge clk) begin
    n <= n + 1;
    hit <= (n == 6);  //> hit quiet
  end
endmodule
