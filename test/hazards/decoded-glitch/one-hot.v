//>> because a state bit of its own needs no decode, and a hold by an input moves nothing at the edge
//>> project {"strobes": ["go"]}
module ring(input clk, input rst, input hold, output go);
  reg [3:0] state;
  always @(posedge clk) if (rst) state <= 4'b0001; else state <= {state[2:0], state[3]};  //> state finding trap-state
  assign go = state[2] & ~hold;  //> go quiet
endmodule
