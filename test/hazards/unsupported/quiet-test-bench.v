//>> because what a test bench does in time is made to be run, not built: the design that it tests is read (definition 44)
`timescale 1ns / 1ps
module bench;
  reg clk, clear;
  wire [3:0] count;
  integer wrong;
  event finished;
  real at;
  up_to_nine dut (.clk(clk), .clear(clear), .count(count));
  initial clk = 0;
  always #5 clk = ~clk;
  initial begin
    wrong = 0;
    clear = 1;
    #22 clear = 0;
    repeat (12) @(posedge clk) check(count);
    at = $realtime;
    -> finished;
    fork
      #1;
      #2;
    join
    force count = 3;
    release count;
    wait (count === 4'd3) $finish;
  end
  task check(input [3:0] seen);
    begin
      @(negedge clk);
      if (seen > 9) wrong = wrong + 1;
    end
  endtask
endmodule

module up_to_nine(input clk, input clear, output reg [3:0] count);
  always @(posedge clk)
    if (clear || count == 9) count <= 0;  //> count clock clk rising, counts up 10
    else count <= count + 1;
endmodule
