//>> because what the text states fits into the period, and of the gate behind it nobody says how long it takes
//>> project {"clocks":{"clk":{"periodPs":10000}}}
`timescale 1ns/1ns
module short_by_the_text(input clk, input hold, output reg [1:0] sum);
  reg [1:0] n;
  wire [1:0] #7 later = n ^ {2{hold}};
  initial {n, sum} = 0;
  always @(posedge clk) n <= {n[0], ~n[1]};
  always @(posedge clk) sum <= later & n;  //> sum quiet
endmodule
