//>> because odd spacing, empty statements and attributes are allowed
module spaced ( input clk , input d , output reg q ) ; ;
  (* keep *) reg   extra ;
  always @ ( posedge   clk ) begin ; q <= d ; extra <= q ; end  //> q quiet
endmodule
