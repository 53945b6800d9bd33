//>> because a deep queue between two clocks: 2048 words of 18 bits, Gray pointers through two flip-flops each, a registered output
// Samples of a converter cross to the clock of a bus. The memory has a write port in the one domain and a read port in
// the other; a word is read only after its pointer has come over.
module deep_queue #(parameter WIDTH = 18, DEPTH_BITS = 11) (
  input  wire             sample_clk, sample_reset_n,   //> sample_reset_n finding reset-release
  input  wire             push,
  input  wire [WIDTH-1:0] sample,
  output wire             full,
  input  wire             bus_clk, bus_reset_n,         //> bus_reset_n finding reset-release
  input  wire             pop,
  output reg  [WIDTH-1:0] word,                         //> word domain bus_clk
  output reg              valid, empty
);
  reg [WIDTH-1:0] ring [0:2**DEPTH_BITS-1];             //> ring no register
  reg [DEPTH_BITS:0] head, head_gray;                   //> head domain sample_clk | head_gray domain sample_clk
  reg [DEPTH_BITS:0] tail, tail_gray;                   //> tail domain bus_clk | tail_gray domain bus_clk

  wire room = !full_r;
  wire [DEPTH_BITS:0] head_after = head + (push & room);
  wire [DEPTH_BITS:0] tail_after = tail + (pop & ~empty);

  // -------------------------------------------------------------- writing side
  reg [DEPTH_BITS:0] tail_meta, tail_here;              //> tail_meta domain sample_clk, crossing protected gray
  reg full_r;                                           //> full_r clock sample_clk rising, stage 1
  assign full = full_r;
  always @(posedge sample_clk or negedge sample_reset_n)
    if (!sample_reset_n) begin
      head <= 0; head_gray <= 0; full_r <= 1'b0;
      tail_meta <= 0; tail_here <= 0;
    end else begin
      head <= head_after;
      head_gray <= head_after ^ (head_after >> 1);
      full_r <= (head_after ^ (head_after >> 1)) == {~tail_here[DEPTH_BITS -: 2], tail_here[DEPTH_BITS-2:0]};
      tail_meta <= tail_gray;
      tail_here <= tail_meta;
    end
  always @(posedge sample_clk)
    if (push && room) ring[head[DEPTH_BITS-1:0]] <= sample;

  // -------------------------------------------------------------- reading side
  reg [DEPTH_BITS:0] head_meta, head_here;              //> head_meta domain bus_clk, crossing protected gray
  always @(posedge bus_clk or negedge bus_reset_n)
    if (!bus_reset_n) begin
      tail <= 0; tail_gray <= 0; empty <= 1'b1; valid <= 1'b0;
      head_meta <= 0; head_here <= 0;
    end else begin
      tail <= tail_after;
      tail_gray <= tail_after ^ (tail_after >> 1);
      empty <= (tail_after ^ (tail_after >> 1)) == head_here;
      valid <= pop & ~empty;
      head_meta <= head_gray;
      head_here <= head_meta;
    end
  always @(posedge bus_clk)
    if (pop && !empty) word <= ring[tail[DEPTH_BITS-1:0]];  //> word crossing assumed enable
endmodule
