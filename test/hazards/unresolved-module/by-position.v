//>> because a cell with parameters, connected by position, is looked for like any other
module pad_ring(input [3:0] raw, output [3:0] clean);
  input_filter #(.STAGES(3)) filter [3:0] (raw, clean);  //> filter finding unresolved-module information
endmodule
