//>> because a count that clocks by comparing passes other counts on the way
module every_tenth(input clk, input rst, output reg [3:0] tens);  //> rst finding reset-release
  reg [3:0] ones;
  always @(posedge clk) if (rst) ones <= 0; else ones <= (ones == 9) ? 4'd0 : ones + 4'd1;
  wire carry = ones[3] & ones[0];  //> ones finding glitch-into-clock possible
  always @(posedge carry or posedge rst)  //> carry finding derived-clock
    if (rst) tens <= 0;
    else tens <= tens + 1;
endmodule
