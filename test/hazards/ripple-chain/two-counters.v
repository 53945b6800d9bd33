//>> because members of a chain may be counters: the carry of the low one clocks the high one
module pair(input clk, input rst, output reg [3:0] low, high);  //> rst finding reset-release
  always @(posedge clk or posedge rst)
    if (rst) low <= 0;
    else low <= low + 1;
  always @(negedge low[3] or posedge rst)  //> low[3] finding ripple-chain
    if (rst) high <= 0;
    else high <= high + 1;
endmodule
