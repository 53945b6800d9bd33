//>> because one code enables one driver, and an idle code none
module codes(input [1:0] pick, input run, input [2:0] d, output y);
  bufif1 (y, d[0], pick == 2'd0 && run);
  bufif1 (y, d[1], pick == 2'd1 && run);
  assign y = pick[1] & ~pick[0] ? d[2] : 1'bz;  //> y quiet
endmodule
