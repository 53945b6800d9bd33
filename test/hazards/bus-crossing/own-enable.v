//>> because an enable that knows nothing of the sender does not make the data wait
module careless(input clk_a, clk_b, input [3:0] d, output reg [3:0] q);
  reg [3:0] held;
  reg [1:0] beat;
  initial {held, beat, q} = 0;
  always @(posedge clk_a) held <= d;
  always @(posedge clk_b) begin
    beat <= beat + 1;
    if (beat == 3) q <= held;  //> q finding bus-crossing error, crossing bare none
  end
endmodule
