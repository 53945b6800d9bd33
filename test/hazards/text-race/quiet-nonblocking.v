//>> because a nonblocking write comes after every read of its instant
module nonblocking(input clk, d, output reg q, output reg r);
  wire p = q;
  always @(posedge clk) begin
    q <= d;
    r <= p;  //> p quiet
  end
endmodule
