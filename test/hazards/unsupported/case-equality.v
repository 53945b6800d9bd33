//>> because no hardware compares x and z: it is read as ==, and that is said
module identity(input [1:0] a, output y);
  assign y = (a === 2'd2);  //> === finding unsupported
endmodule
