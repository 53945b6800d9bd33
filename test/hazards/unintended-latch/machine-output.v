//>> because one state of the machine forgets an output that every other state sets
module machine(input [1:0] state, input ready, output reg send, output reg [1:0] next);
  always @* begin
    next = state;
    case (state)
      2'd0: begin send = 1'b0; if (ready) next = 2'd1; end
      2'd1: begin send = 1'b1; next = 2'd2; end
      2'd2: if (ready) send = 1'b0;  //> send finding unintended-latch warning
      default: begin send = 1'b0; next = 2'd0; end
    endcase
  end
endmodule
