//>> because a process that writes before it reads follows its own order
module ordered(input [3:0] d, output reg odd);
  reg t;
  always @* begin
    t = d[0];
    t = t ^ d[1];  //> t quiet
    t = t ^ d[2];
    odd = t ^ d[3];  //> odd quiet
  end
endmodule
