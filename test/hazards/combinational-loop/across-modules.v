//>> because two blocks that each answer at once make a loop that neither of them shows; it is told where something is made
module asks(input ready, output valid); assign valid = ready; endmodule
module answers(input valid, output ready); assign ready = ~valid; endmodule  //> ~ finding combinational-loop
module pair(output busy);
  wire ready, valid;
  asks a(ready, valid);
  answers b(valid, ready);
  assign busy = valid;
endmodule
