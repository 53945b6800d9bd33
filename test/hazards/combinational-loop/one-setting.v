//>> because one setting of 40 inputs closes it, and one is enough
module one_setting(input [39:0] key, output [40:0] way);
  assign way[0] = ~way[40];  //> ~ finding combinational-loop certain
  assign way[40:1] = way[39:0] & (key ^ 40'h5A5A5A5A5A);
endmodule
