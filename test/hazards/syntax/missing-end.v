//>> because a begin without its end is told, and the next module is read
module open_block(input clk, input d, output reg q);
  always @(posedge clk) begin  //> begin finding syntax error
    q <= d;
endmodule
module next_one(input clk, input d, output reg r);
  always @(posedge clk) r <= d;  //> r quiet
endmodule
