//>> because digits that count at an enable made from a long count
module stopwatch(input clk, input start, input stop, input rst, output reg [3:0] d0, d1, d2);  //> rst finding reset-release
  reg run; reg [22:0] ticker;
  wire click = (ticker == 0);
  always @(posedge clk or posedge rst)
    if (rst) run <= 0; else if (start) run <= 1; else if (stop) run <= 0;
  always @(posedge clk or posedge rst)
    if (rst) ticker <= 0;
    else if (ticker == 5000000) ticker <= 0;
    else if (run) ticker <= ticker + 1;
  always @(posedge clk or posedge rst)
    if (rst) begin d0 <= 0; d1 <= 0; d2 <= 0; end
    else if (click && run) begin
      if (d0 == 9) begin d0 <= 0;
        if (d1 == 9) begin d1 <= 0;
          if (d2 == 9) d2 <= 0; else d2 <= d2 + 1;
        end else d1 <= d1 + 1;
      end else d0 <= d0 + 1;
    end
endmodule
