//>> because three digits enabled by each other's carry are one clock; a decoder for seven segments may glitch on its port
module bcd(input clk, input clr, input en, output reg [3:0] q, output tc);
  always @(posedge clk)
    if (clr) q <= 0;
    else if (en) q <= (q == 9) ? 4'd0 : q + 4'd1;
  assign tc = en & (q == 9);
endmodule
module lab_bcd(input clk, input reset, output [3:0] ones, tens, hundreds, output reg [6:0] seg);
  wire t0, t1, t2;
  bcd b0(clk, reset, 1'b1, ones, t0);
  bcd b1(clk, reset, t0, tens, t1);
  bcd b2(clk, reset, t1, hundreds, t2);
  always @(*) case (ones)  //> case finding decoded-glitch hint
    4'd0: seg = 7'b1000000;
    4'd1: seg = 7'b1111001;
    4'd2: seg = 7'b0100100;
    4'd3: seg = 7'b0110000;
    4'd4: seg = 7'b0011001;
    4'd5: seg = 7'b0010010;
    4'd6: seg = 7'b0000010;
    4'd7: seg = 7'b1111000;
    4'd8: seg = 7'b0000000;
    4'd9: seg = 7'b0010000;
    default: seg = 7'b1111111;
  endcase
endmodule
