//>> because the variable itself has its new value at once
module itself(input clk, d, e, output reg q, output reg r);
  always @(posedge clk) begin
    q = d;
    r <= q & e;  //> q quiet
  end
endmodule
