//>> because a sign has no place between base and digits (IEEE 1364-2005 3.5.1)
module literal(output [7:0] y);
  assign y = 8'd-6;  //> 8'd-6 finding syntax
endmodule
