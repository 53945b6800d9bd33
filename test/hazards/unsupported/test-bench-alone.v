//>> because of a test bench alone nothing can be told, and one sentence says so instead of one per statement
module bench;  //> bench finding unsupported
  reg clk;
  real at;
  event finished;
  initial begin
    clk = 0;
    forever #5 clk = ~clk;
  end
  initial begin
    #100 -> finished;
    at = $realtime;
  end
endmodule
