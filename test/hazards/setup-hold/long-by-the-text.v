//>> because the delay that the text states is longer than the period by itself, though no set says what the gate before it takes
//>> project {"clocks":{"clk":{"periodPs":10000}}}
`timescale 1ns/1ns
module long_by_the_text(input clk, input hold, output reg [1:0] sum);
  reg [1:0] n;
  wire [1:0] #12 later = n ^ {2{hold}};
  initial {n, sum} = 0;
  always @(posedge clk) n <= {n[0], ~n[1]};
  always @(posedge clk) sum <= later & n;  //> sum finding setup-hold possible
endmodule
