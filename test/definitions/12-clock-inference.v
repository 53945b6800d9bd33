//>> because the untested edge signal is the clock, and the order of the tests is priority (rule 12; IEEE 1364.1)
module inference(input clk, input clr, input set_n, input d, output reg q);  //> clr finding reset-release | set_n finding reset-release
  always @(posedge clr or negedge set_n or posedge clk)
    if (clr) q <= 0;
    else if (!set_n) q <= 1;
    else q <= d;  //> q clock clk rising, asynchronous clr high set_n low
endmodule
