//>> because the address of a memory moves bit by bit: what is read may pulse, however large the memory is
module large_memory(input clk, input we, input [9:0] at, input [15:0] in, output strobe, output [15:0] shown);
  reg [15:0] words [0:1023];
  reg [9:0] step = 0;  //> step clock clk rising
  always @(posedge clk) begin
    step <= step + 1;
    if (we) words[at] <= in;
  end
  assign shown = words[step];    //> words finding decoded-glitch possible hint
  assign strobe = shown[3] & step[0];
endmodule
