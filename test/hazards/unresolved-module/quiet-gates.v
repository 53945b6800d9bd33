//>> because gates of the language are given, and a module may stand behind its use
module uses_later(input a, input b, input en, output y, output z);
  bufif1 g0(z, a, en);  //> bufif1 quiet
  half h(.a(a), .b(b), .y(y));  //> h quiet
endmodule
module half(input a, input b, output y);
  xor (y, a, b);
endmodule
