//>> because a machine whose lights are decoded from its state
module traffic(input clk, input rst_n, input sensor, output reg [2:0] main_light, side_light);  //> rst_n finding reset-release
  parameter S0 = 0, S1 = 1, S2 = 2, S3 = 3;
  reg [1:0] state, next;
  reg [3:0] timer;
  reg load;
  always @(posedge clk or negedge rst_n) if (!rst_n) state <= S0; else state <= next;
  always @(posedge clk or negedge rst_n) if (!rst_n) timer <= 0; else if (load) timer <= 0; else timer <= timer + 1;
  always @* begin
    next = state; load = 0;
    main_light = 3'b001; side_light = 3'b100;
    case (state)  //> state finding decoded-glitch hint
      S0: if (sensor && timer == 9) begin next = S1; load = 1; end
      S1: begin main_light = 3'b010; if (timer == 3) begin next = S2; load = 1; end end
      S2: begin main_light = 3'b100; side_light = 3'b001; if (timer == 9) begin next = S3; load = 1; end end
      S3: begin main_light = 3'b100; side_light = 3'b010; if (timer == 3) begin next = S0; load = 1; end end
    endcase
  end
endmodule
