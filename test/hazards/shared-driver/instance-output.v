//>> because the output of an instance and an assignment drive one wire
module source(input a, output y);
  assign y = ~a;
endmodule
module clash(input a, input b, output y);
  source u(.a(a), .y(y));
  assign y = b;  //> y finding shared-driver error
endmodule
