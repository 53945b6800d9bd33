//>> because a pointer in Gray code changes one bit at a time: a row of flip-flops gives the old one or the new one
module pointers(input fill_clk, fill_rst_n, drain_clk, drain_rst_n, input push, pop, output reg full, empty);  //> fill_rst_n finding reset-release | drain_rst_n finding reset-release
  reg [3:0] fill, fill_gray, drain, drain_gray;
  reg [3:0] drain_1, drain_2, fill_1, fill_2;
  wire [3:0] fill_next = fill + (push & ~full);
  wire [3:0] drain_next = drain + (pop & ~empty);
  wire [3:0] fill_gray_next = fill_next ^ (fill_next >> 1);
  wire [3:0] drain_gray_next = drain_next ^ (drain_next >> 1);
  always @(posedge fill_clk or negedge fill_rst_n)
    if (!fill_rst_n) {fill, fill_gray, full, drain_1, drain_2} <= 0;
    else begin
      fill <= fill_next;
      fill_gray <= fill_gray_next;
      drain_1 <= drain_gray;  //> drain_1 quiet, crossing protected gray
      drain_2 <= drain_1;
      full <= fill_gray_next == {~drain_2[3:2], drain_2[1:0]};
    end
  always @(posedge drain_clk or negedge drain_rst_n)
    if (!drain_rst_n) begin
      {drain, drain_gray, fill_1, fill_2} <= 0;
      empty <= 1;
    end else begin
      drain <= drain_next;
      drain_gray <= drain_gray_next;
      fill_1 <= fill_gray;  //> fill_1 quiet, crossing protected gray
      fill_2 <= fill_1;
      empty <= drain_gray_next == fill_2;
    end
endmodule
