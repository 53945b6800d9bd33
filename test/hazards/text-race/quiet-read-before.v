//>> because what is read before the write is the old value, whoever runs it
module read_before(input clk, d, output reg q, output reg r);
  wire p = q;
  always @(posedge clk) begin
    r <= p;  //> p quiet
    q = d;
  end
endmodule
