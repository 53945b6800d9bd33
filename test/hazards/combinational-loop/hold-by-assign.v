//>> because an assignment that holds its own value is a loop, though a latch may be meant
module hold(input en, input d, output q);
  assign q = en ? d : q;  //> ? finding combinational-loop certain error
endmodule
