//>> because a queue between two clocks: Gray pointers through two flip-flops each, a memory with a port in either domain
module dual_clock_queue
#(parameter W = 8, A = 3)
( input              wclk, wrst_n, put  //> wrst_n finding reset-release
, input      [W-1:0] wdata
, output reg         wfull
, input              rclk, rrst_n, get  //> rrst_n finding reset-release
, output     [W-1:0] rdata
, output reg         rempty
);
reg [W-1:0] store [0:(1<<A)-1];
reg [A:0] wbin, wgray, rbin, rgray;    //> wbin domain wclk | wgray domain wclk | rbin domain rclk | rgray domain rclk
reg [A:0] wgray_r1, wgray_r2;          //> wgray_r1 domain rclk, crossing protected gray | wgray_r2 domain rclk
reg [A:0] rgray_w1, rgray_w2;          //> rgray_w1 domain wclk, crossing protected gray | rgray_w2 domain wclk

wire [A:0] wbin_next = wbin + (put & ~wfull);
wire [A:0] wgray_next = (wbin_next >> 1) ^ wbin_next;
wire [A:0] rbin_next = rbin + (get & ~rempty);
wire [A:0] rgray_next = (rbin_next >> 1) ^ rbin_next;

always @(posedge wclk or negedge wrst_n)
  if (!wrst_n) {wbin, wgray, wfull} <= 0;
  else begin
    wbin <= wbin_next;
    wgray <= wgray_next;
    wfull <= wgray_next == {~rgray_w2[A:A-1], rgray_w2[A-2:0]};
  end
always @(posedge rclk or negedge rrst_n)
  if (!rrst_n) begin {rbin, rgray} <= 0; rempty <= 1'b1; end
  else begin
    rbin <= rbin_next;
    rgray <= rgray_next;
    rempty <= rgray_next == wgray_r2;
  end

always @(posedge wclk or negedge wrst_n)
  if (!wrst_n) {rgray_w2, rgray_w1} <= 0;
  else         {rgray_w2, rgray_w1} <= {rgray_w1, rgray};
always @(posedge rclk or negedge rrst_n)
  if (!rrst_n) {wgray_r2, wgray_r1} <= 0;
  else         {wgray_r2, wgray_r1} <= {wgray_r1, wgray};

always @(posedge wclk) if (put && !wfull) store[wbin[A-1:0]] <= wdata;
assign rdata = store[rbin[A-1:0]];     //> store finding decoded-glitch hint
endmodule
