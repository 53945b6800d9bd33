//>> because a cold reset clears all, a warm one all but the log; each is released in step with the clock
module door_lock(input clk, cold_n, warm_n, key_down, input [3:0] key, output reg open, output [7:0] tries);
  wire cold_ok, warm_ok;
  reset_in_step cold(clk, cold_n, cold_ok);
  reset_in_step warm(clk, cold_n & warm_n, warm_ok);

  reg [7:0] log;          //> log clock clk rising, asynchronous cold.r[1] low
  reg [1:0] place;        //> place clock clk rising, asynchronous warm.r[1] low
  reg [2:0] down;         //> down clock clk rising, asynchronous warm.r[1] low
  wire pressed = down[1] & ~down[2];
  assign tries = log;

  always @(posedge clk or negedge cold_ok)
    if (!cold_ok) log <= 8'd0;
    else if (pressed && place == 2'd3) log <= log + 8'd1;

  always @(posedge clk or negedge warm_ok)
    if (!warm_ok) begin
      place <= 0; down <= 0; open <= 0;
    end else begin
      down <= {down[1:0], key_down};
      if (pressed) case (place)
        0: place <= key == 4'd7 ? 1 : 0;
        1: place <= key == 4'd2 ? 2 : 0;
        2: place <= key == 4'd9 ? 3 : 0;
        3: begin open <= key == 4'd1; place <= 0; end
      endcase
    end
endmodule

module reset_in_step(input clk, n, output ok);
  reg [1:0] r;            //> r clock clk rising
  always @(posedge clk or negedge n)
    if (!n) r <= 2'b00;
    else r <= {r[0], 1'b1};
  assign ok = r[1];
endmodule
