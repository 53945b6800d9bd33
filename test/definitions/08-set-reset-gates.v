//>> because two buttons that set and clear two NORs open nothing: the pair has no gate, no root and no domain, and its output on an edge is a root of its own
module button(input press, input reset_n, input d, output reg seen);
  wire held, held_n;  //> held latch intended, gate none, domain none, forced reset_n low 0 press high 1
  nor (held, ~reset_n, held_n);
  nor (held_n, press, held);
  always @(posedge held) seen <= d;  //> seen root held rising, stage 1 | held kind root
endmodule
