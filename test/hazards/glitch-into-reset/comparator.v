//>> because a comparison that clears at once passes on the way what it never holds
module watchdog(input clk, input kick, output reg alarm);
  reg [3:0] n;
  initial {n, alarm} = 0;
  always @(posedge clk) n <= kick ? 4'd0 : n + 4'd1;
  wire back = (n == 4'd2);  //> n finding glitch-into-reset possible
  always @(posedge clk or posedge back) if (back) alarm <= 0; else if (n == 15) alarm <= 1;
endmodule
