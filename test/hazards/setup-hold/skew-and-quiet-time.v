//>> because two strobes come 9 ns apart where 5 ns are allowed, and the address moves while the strobe is high
//>> project {"inputs":{"s":{"levels":[{"atPs":0,"value":"0"},{"atPs":50000,"value":"1"},{"atPs":80000,"value":"0"}]},"t":{"levels":[{"atPs":0,"value":"0"},{"atPs":59000,"value":"1"}]},"a":{"levels":[{"atPs":0,"value":"0"},{"atPs":70000,"value":"1"}]}}}
`timescale 1ns/1ns
module store(input s, t, a, output reg q);
  always @* if (s) q = a & t;  //> q latch intended
  specify
    $skew(posedge s, posedge t, 5);  //> $skew finding setup-hold certain
    $nochange(posedge s, a, 0, 0);  //> $nochange finding setup-hold certain
  endspecify
endmodule
