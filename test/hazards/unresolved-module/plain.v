//>> because a cell that is not given is a black box: one finding per cell name
module uses_cell(input a, output y, output z);
  inverter_cell u0(.i(a), .o(y));  //> u0 finding unresolved-module information
  inverter_cell u1(.i(y), .o(z));  //> u1 quiet
endmodule
