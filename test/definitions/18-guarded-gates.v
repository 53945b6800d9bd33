//>> because a gate held at its controlling value passes nothing on: the first pair is never closed, the second with go at 1
module guarded(input go, output x, output y, output v, output w);
  assign y = go & ~x;  //> x quiet
  assign x = y & ~go;  //> y quiet
  assign v = go & ~w;  //> w finding combinational-loop certain error
  assign w = v & go;
endmodule
