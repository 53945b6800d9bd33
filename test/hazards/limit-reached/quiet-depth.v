//>> because what is just as deep as the limit allows is read
//>> limit depth=4
module leaf(input a, output y); assign y = ~a; endmodule
module branch(input a, output y); leaf u(a, y); endmodule  //> leaf quiet
module trunk(input a, output y); branch u(a, y); endmodule
