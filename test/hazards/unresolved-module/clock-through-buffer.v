//>> because the cell clocks a register through an inverter
module board(input osc, input d, output reg q);
  wire raw, turned;
  oscillator_cell u(.x(osc), .y(raw));  //> u finding unresolved-module warning
  not g(turned, raw);
  always @(posedge turned) q <= d;  //> q clock turned rising, root raw falling
endmodule
