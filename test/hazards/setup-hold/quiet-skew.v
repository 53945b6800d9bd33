//>> because the second strobe follows within the limit, and the address moves at the very edges of the first
//>> project {"inputs":{"s":{"levels":[{"atPs":0,"value":"0"},{"atPs":50000,"value":"1"},{"atPs":80000,"value":"0"}]},"t":{"levels":[{"atPs":0,"value":"0"},{"atPs":55000,"value":"1"}]},"a":{"levels":[{"atPs":0,"value":"0"},{"atPs":50000,"value":"1"},{"atPs":80000,"value":"0"}]}}}
`timescale 1ns/1ns
module store(input s, t, a, output reg q);
  always @* if (s) q = a & t;  //> q latch intended
  specify
    $skew(posedge s, posedge t, 5);
    $nochange(posedge s, a, 0, 0);
  endspecify
endmodule
