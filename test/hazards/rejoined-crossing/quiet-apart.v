//>> because they are read by different registers, or by different bits of one
module apart(input clk_a, clk_b, input [1:0] d, output reg [1:0] status, output reg on);
  reg run = 0, ready = 0;
  reg run_1 = 0, run_2 = 0, ready_1 = 0, ready_2 = 0;
  initial {status, on} = 0;
  always @(posedge clk_a) {run, ready} <= d;
  always @(posedge clk_b) begin
    run_1 <= run;
    run_2 <= run_1;
    ready_1 <= ready;
    ready_2 <= ready_1;
    status <= {run_2, ready_2};  //> status quiet
    on <= run_2;
  end
endmodule
