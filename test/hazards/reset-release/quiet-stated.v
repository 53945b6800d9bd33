//>> because a reset that a person stated is known to be taken care of (rule 36)
//>> project {"resets": {"rst_n": {"active": "low", "periods": 4}}}
module stated(input clk, input rst_n, input d, output reg q);  //> rst_n quiet
  always @(posedge clk or negedge rst_n) if (!rst_n) q <= 0; else q <= d;
endmodule
