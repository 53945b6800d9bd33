//>> because a count kept in a latch goes on while the gate is open: how far, nobody knows
module counting(input run, input clear_n, output reg [3:0] n);
  wire [3:0] next = n + 4'd1;  //> + finding combinational-loop certain
  always_latch
    if (!clear_n) n <= 0;
    else if (run) n <= next;
endmodule
