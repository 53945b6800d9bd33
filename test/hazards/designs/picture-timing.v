//>> because line and picture timing from two counters, parameters in one place, strobes one period long
`define TOTAL(a, b, c, d) ((a) + (b) + (c) + (d))
module picture_timing #(
    // smaller than life, so that a whole picture fits a preview
    parameter H_SHOWN = 16, H_FRONT = 2, H_SYNC = 4, H_BACK = 2,
    parameter V_SHOWN = 6,  V_FRONT = 1, V_SYNC = 2, V_BACK = 1,
    parameter SYNC_LEVEL = 1'b0)
  (input  wire       pixel_clk, rst,
   output reg        hsync, vsync, shown,   //> hsync form registered | vsync form registered | shown form registered
   output reg  [4:0] x,                     //> x counts up 24
   output reg  [3:0] y,
   output wire       frame_start);
    localparam H_TOTAL = `TOTAL(H_SHOWN, H_FRONT, H_SYNC, H_BACK);
    localparam V_TOTAL = `TOTAL(V_SHOWN, V_FRONT, V_SYNC, V_BACK);
    wire last_x = x == H_TOTAL - 1;
    wire last_y = y == V_TOTAL - 1;

    always @(posedge pixel_clk)
        if (rst) begin
            x <= 0; y <= 0;
        end else begin
            x <= last_x ? 5'd0 : x + 5'd1;
            if (last_x) y <= last_y ? 4'd0 : y + 4'd1;
        end

    always @(posedge pixel_clk) begin
        hsync <= (x >= H_SHOWN + H_FRONT && x < H_SHOWN + H_FRONT + H_SYNC) ? SYNC_LEVEL : ~SYNC_LEVEL;
        vsync <= (y >= V_SHOWN + V_FRONT && y < V_SHOWN + V_FRONT + V_SYNC) ? SYNC_LEVEL : ~SYNC_LEVEL;
        shown <= x < H_SHOWN && y < V_SHOWN;
    end
    assign frame_start = x == 0 && y == 0; //> x finding decoded-glitch hint
endmodule
