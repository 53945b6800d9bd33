//>> because a gate cell of a low-open latch and an and: its latch holds the enable while the clock is high
module sensor_filter(input clk, rst_n, sleep, sample_ready, //> rst_n finding reset-release | sample_ready held 1
  input [7:0] sample, output reg [9:0] mean);
  wire sample_clk;
  gate_cell gate(.ck(clk), .en(sample_ready), .test(1'b0), .gck(sample_clk));

  reg [7:0] a, b, c, d;   //> a clock gate.gck rising, domain clk | b domain clk
  always @(posedge sample_clk or negedge rst_n)
    if (!rst_n) {a, b, c, d} <= 32'd0;
    else {a, b, c, d} <= {sample, a, b, c};

  always @(posedge clk or negedge rst_n)
    if (!rst_n) mean <= 0;
    else if (!sleep) mean <= (a + b) + (c + d);
endmodule

`celldefine
module gate_cell(input ck, en, test, output gck);
  reg q;                  //> q latch intended, gate clk low
  always @(ck or en or test) if (!ck) q = en | test;
  assign gck = ck & q;    //> gck kind gated sound | q finding gated-clock information
endmodule
`endcelldefine
