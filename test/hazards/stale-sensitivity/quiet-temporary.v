//>> because what is written before it is read is no input of the process, and neither are parameters and loop variables
module temporary #(parameter STEP = 3) (input [3:0] a, output reg [3:0] y);
  reg [3:0] t;
  integer i;
  always @(a) begin  //> a quiet
    t = a + STEP;
    y = 0;
    for (i = 0; i < 4; i = i + 1) if (t[i]) y[3 - i] = 1;
  end
endmodule
