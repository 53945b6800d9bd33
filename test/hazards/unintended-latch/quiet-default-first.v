//>> because a value given first completes every way through the block
module given_first(input a, input b, output reg y);
  always @(a or b) begin
    y = b;  //> y quiet, no latch
    if (a) y = ~b;
  end
endmodule
