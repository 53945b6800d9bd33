//>> because in a Gray code one bit changes at a time: whoever decodes it meets the old code or the new one
//>> project {"strobes": ["top"]}
module cabin(input clk, input rst, output top, output bottom);
  reg [2:0] code;
  always @(posedge clk)
    if (rst) code <= 0;
    else case (code)
      3'b000: code <= 3'b001;
      3'b001: code <= 3'b011;
      3'b011: code <= 3'b010;
      3'b010: code <= 3'b110;
      3'b110: code <= 3'b111;
      3'b111: code <= 3'b101;
      3'b101: code <= 3'b100;
      default: code <= 3'b000;
    endcase
  assign top = (code == 3'b100);     //> top quiet
  assign bottom = (code == 3'b000);  //> bottom quiet
endmodule
