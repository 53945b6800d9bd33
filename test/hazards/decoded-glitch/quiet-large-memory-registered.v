//>> because a register behind a memory's output ends what its address makes of it
module registered(input clk, input we, input [9:0] at, input [15:0] in, output reg [15:0] shown);
  reg [15:0] words [0:1023];
  reg [9:0] step = 0;
  always @(posedge clk) begin
    step <= step + 1;
    if (we) words[at] <= in;
    shown <= words[step];  //> shown clock clk rising, quiet
  end
endmodule
