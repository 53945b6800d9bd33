//>> because a module that holds itself never ends
module nest(input a, output y);
  wire b;
  nest u(.a(a), .y(b));  //> u finding limit-reached warning
  assign y = b;
endmodule
//>> top nest
