//>> because of a vector only one bit is listed
module part(input [3:0] v, input on, output reg odd);
  always @(v[0] or on)  //> v finding stale-sensitivity
    if (on) odd = ^v; else odd = 0;
endmodule
