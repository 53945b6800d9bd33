//>> because a receiver three times as fast sees every pulse
//>> project {"clocks": {"slow": {"periodPs": 30000}, "fast": {"periodPs": 10000}}}
module to_fast(input slow, fast, door, output reg seen);
  reg door_1 = 0, door_2 = 0, pulse = 0, first = 0;
  initial seen = 0;
  always @(posedge slow) begin
    door_1 <= door;
    door_2 <= door_1;
    pulse <= door_1 & ~door_2;
  end
  always @(posedge fast) begin
    first <= pulse;  //> first quiet
    seen <= first;
  end
endmodule
