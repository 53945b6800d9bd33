//>> because a root clock in the data of its own domain changes at the very edge that samples it; a divided clock read there is a register like any other (rule 37)
module read_clock(input clk, input d, output reg a, output reg b, output reg half);
  initial {a, b, half} = 0;
  always @(posedge clk) half <= ~half;  //> half#2 quiet
  always @(posedge clk) a <= d ^ clk;  //> a finding clock-as-data information
  always @(posedge clk) b <= d ^ half;  //> b quiet
endmodule
