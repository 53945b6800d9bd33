//>> because the net may have followed the variable or not when it is read (IEEE 1364-2005 11.5)
module net_follows(input clk, d, output reg q, output reg r);
  wire p = q;
  always @(posedge clk) begin
    q = d;
    r <= p;  //> p finding text-race warning
  end
endmodule
