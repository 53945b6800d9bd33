//>> because inputs take the level that lets registers move: a sole enable active, clear inactive, data 0 (rule 35)
module held(input clk, input run, input clear, input [3:0] step, output reg [3:0] n, output reg [3:0] last);
  initial {n, last} = 0;  //> n start 0000
  always @(posedge clk)
    if (clear) n <= 0;
    else if (run) n <= n + 1;  //> run held 1 | n counts up 16
  always @(posedge clk) last <= step;
endmodule
