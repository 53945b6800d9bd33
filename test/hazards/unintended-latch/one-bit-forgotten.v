//>> because three bits are logic and the fourth is not
module partly(input [3:0] a, input e, output reg [3:0] y);
  always @* begin
    y[2:0] = a[2:0];
    if (e) y[3] = a[3];  //> y finding unintended-latch
  end
endmodule
