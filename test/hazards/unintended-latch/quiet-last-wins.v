//>> because a loop that starts from a value always sets it
module highest(input [7:0] a, output reg [2:0] at, output reg any);
  integer i;
  always @* begin
    any = 0;
    at = 0;  //> at quiet
    for (i = 0; i < 8; i = i + 1)
      if (a[i]) begin
        at = i;
        any = 1;
      end
  end
endmodule
