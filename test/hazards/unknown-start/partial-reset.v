//>> because the reset of the block forgets the phase
module phases(input clk, input rst, output reg run, output reg phase);  //> phase finding unknown-start information
  always @(posedge clk)
    if (rst) run <= 1'b0;  //> run quiet
    else begin
      run <= 1'b1;
      phase <= ~phase;
    end
endmodule
