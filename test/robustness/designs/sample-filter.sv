// A moving average of samples over a stream interface, with as many taps as asked for, and a peak meter behind it.
interface sample_stream #(parameter int WIDTH = 8) (input logic clk);
  logic [WIDTH-1:0] data;
  logic valid, ready;
  modport source (input ready, output data, valid);
  modport sink (input data, valid, output ready);
endinterface

module moving_average #(
  parameter int WIDTH = 8,
  parameter int TAPS = 4
) (
  input  logic             clk,
  input  logic             rst,
  input  logic             take,
  input  logic [WIDTH-1:0] sample,
  output logic [WIDTH-1:0] average
);
  localparam int GROWTH = $clog2(TAPS);
  logic [WIDTH-1:0] delayed [0:TAPS-1];
  logic [WIDTH+GROWTH-1:0] sum;

  generate
    for (genvar tap = 0; tap < TAPS; tap = tap + 1) begin : line
      if (tap == 0) begin : head
        always_ff @(posedge clk) if (take) delayed[tap] <= sample;
      end else begin : tail
        always_ff @(posedge clk) if (take) delayed[tap] <= delayed[tap-1];
      end
    end
  endgenerate

  always_ff @(posedge clk) begin
    if (rst) sum <= '0;
    else if (take) sum <= sum + sample - delayed[TAPS-1];
  end

  assign average = sum[WIDTH+GROWTH-1:GROWTH];
endmodule

module peak_meter #(parameter int WIDTH = 8, parameter int HOLD = 100) (
  input  logic             clk, rst, take,
  input  logic [WIDTH-1:0] level,
  output logic [WIDTH-1:0] peak
);
  logic [6:0] age;
  wire old = age == HOLD;
  always_ff @(posedge clk)
    if (rst) begin
      peak <= '0;
      age <= '0;
    end else if (take) begin
      if (level > peak || old) begin
        peak <= level;
        age <= '0;
      end else begin
        age <= age + 1'b1;
      end
    end
endmodule

module sample_filter (
  input  logic       clk, rst,
  input  logic       valid,
  input  logic [7:0] raw,
  output logic [7:0] smooth, peak
);
  sample_stream #(.WIDTH(8)) stream (.clk(clk));
  assign stream.data = raw;
  assign stream.valid = valid;
  assign stream.ready = 1'b1;
  moving_average #(.WIDTH(8), .TAPS(4)) average (
    .clk,
    .rst,
    .take(stream.valid && stream.ready),
    .sample(stream.data),
    .average(smooth)
  );
  peak_meter #(.WIDTH(8)) meter (.clk(clk), .rst(rst), .take(valid), .level(smooth), .peak(peak));
endmodule
