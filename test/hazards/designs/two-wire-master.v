//>> because an open-drain bus of two wires: both ends pull low or let go, the master reads back what the wire does
module two_wire_master(
  input            clk, rst_n, go, //> rst_n finding reset-release, held-for 2
  input      [6:0] device,
  input      [7:0] value,
  output reg       busy, acked,   //> busy clock clk rising | acked clock clk rising
  inout            sda, scl        //> sda held z
);
  reg [1:0] quarter;  //> quarter clock clk rising
  reg [4:0] slot;     //> slot clock clk rising
  reg [17:0] frame;   //> frame clock clk rising
  reg sda_low, scl_low;
  reg [1:0] sda_seen; //> sda_seen clock clk rising

  assign sda = sda_low ? 1'b0 : 1'bz;
  assign scl = scl_low ? 1'b0 : 1'bz;
  wire stretched = !scl_low & !scl;

  always @(posedge clk or negedge rst_n)
    if (!rst_n) sda_seen <= 2'b11;
    else sda_seen <= {sda_seen[0], sda};

  always @(posedge clk or negedge rst_n)
    if (!rst_n) begin
      busy <= 0; acked <= 0; quarter <= 0; slot <= 0; frame <= 0; sda_low <= 0; scl_low <= 0;
    end else if (!busy) begin
      sda_low <= 0; scl_low <= 0;
      if (go) begin
        busy <= 1; slot <= 0; quarter <= 0; acked <= 1;
        // nine slots a byte: the ninth is the other end's answer, left high here
        frame <= {device, 1'b0, 1'b1, value, 1'b1};
        sda_low <= 1;
      end
    end else if (!stretched) begin
      quarter <= quarter + 1;
      case (quarter)
        2'd0: scl_low <= 1;
        2'd1: sda_low <= slot == 18 ? 1'b1 : !frame[17];
        2'd2: scl_low <= 0;
        2'd3: begin
          if (slot == 8 || slot == 17) acked <= acked & ~sda_seen[1];
          frame <= frame << 1;
          slot <= slot + 1;
          if (slot == 18) begin busy <= 0; sda_low <= 0; end
        end
      endcase
    end
endmodule
