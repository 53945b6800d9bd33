//>> because a detector whose output hears state and input
module seq_det(input clk, reset, x, output z);  //> reset finding reset-release
  reg [1:0] state, next_state;
  parameter A=2'b00, B=2'b01, C=2'b10, D=2'b11;
  always @(posedge clk, posedge reset) if (reset) state <= A; else state <= next_state;
  always @(state or x) case (state)
    A: next_state = x ? B : A;
    B: next_state = x ? B : C;
    C: next_state = x ? D : A;
    D: next_state = x ? B : C;
  endcase
  assign z = (state == D) & x;
endmodule
