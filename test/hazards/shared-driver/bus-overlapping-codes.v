//>> because the selects of two of three drivers share the code 2
module codes(input [1:0] pick, input [2:0] d, output y);
  bufif1 (y, d[0], pick == 2'd0);
  bufif1 (y, d[1], pick[1]);
  bufif0 (y, d[2], pick != 2'd2);  //> y finding shared-driver possible
endmodule
