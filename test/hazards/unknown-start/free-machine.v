//>> because a machine without reset goes round in whatever state it woke up in
module machine(input clk, output reg done);
  reg [1:0] state;  //> state finding unknown-start information
  always @(posedge clk)
    case (state)
      2'd0: state <= 1;  //> state finding trap-state
      2'd1: state <= 2;
      2'd2: state <= 0;
      default: state <= 3;
    endcase
  always @* done = (state == 3);  //> state finding decoded-glitch hint
endmodule
