//>> because instances are not read deeper than the limit allows
//>> limit depth=2
module leaf(input a, output y); assign y = ~a; endmodule
module branch(input a, output y); leaf u(a, y); endmodule
module trunk(input a, output y); branch u(a, y); endmodule  //> u finding limit-reached
module tree(input a, output y); trunk u(a, y); endmodule
