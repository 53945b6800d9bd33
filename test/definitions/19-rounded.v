//>> because half of a period of 25 ps is 12.5 ps, which is placed at 13 (rule 19): the first rise and the time high
//>> project {"clocks": {"clk": {"periodPs": 25}}}
module rounded(input clk, output same);
  assign same = clk;  //> same at 12 0, at 13 1, at 25 1, at 26 0, at 37 0, at 38 1
endmodule
