//>> because two assignments drive one wire
module clash(input a, b, output y);
  assign y = a;
  assign y = b;  //> y finding shared-driver error
endmodule
