//>> because two processes that write one memory at one edge are its two ports
module two_ports(
  input clk, we_a, we_b, input [9:0] at_a, at_b, input [15:0] in_a, in_b,
  output reg [15:0] out_a, out_b
);
  reg [15:0] words [0:1023];  //> words quiet, no register
  always @(posedge clk) begin
    if (we_a) words[at_a] <= in_a;  //> words quiet
    out_a <= words[at_a];  //> out_a clock clk rising
  end
  always @(posedge clk) begin
    if (we_b) words[at_b] <= in_b;  //> words quiet
    out_b <= words[at_b];  //> out_b clock clk rising
  end
endmodule
