//>> because a cell whose output clocks something matters more
module clocked_by_cell(input osc, input d, output reg q);
  wire c;
  doubler u(.in(osc), .out(c));  //> u finding unresolved-module warning
  always @(posedge c) q <= d;
endmodule
