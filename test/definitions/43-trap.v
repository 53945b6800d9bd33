//>> because the two values outside a twisted ring never lead back: with a start value only an upset gets there, without one the ring may start there (rule 43)
module traps(input clk, output reg [2:0] set, output reg [2:0] open, output reg [2:0] mended);  //> open finding unknown-start
  initial {set, mended} = 0;
  always @(posedge clk) set <= {set[1:0], ~set[2]};  //> set finding trap-state hint
  always @(posedge clk) open <= {open[1:0], ~open[2]};  //> open finding trap-state warning
  always @(posedge clk) mended <= mended == 3'd2 ? 3'd0 : {mended[1:0], ~mended[2]};  //> mended quiet, counts johnson 6
endmodule
