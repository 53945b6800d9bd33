// A lift between four floors: calls are remembered, the cabin moves floor by floor, the door stays open for a while.
package lift_types;
  typedef enum logic [1:0] { RESTING, MOVING, OPENING, WAITING } phase_t;
  localparam int FLOORS = 4;
  localparam int PATIENCE = 9;
  function automatic logic [1:0] nearest(input logic [FLOORS-1:0] calls, input logic [1:0] here);
    logic [1:0] found;
    found = here;
    for (int i = 0; i < FLOORS; i = i + 1) begin
      if (calls[i]) found = i[1:0];
    end
    return found;
  endfunction
endpackage

module call_store import lift_types::*; (
  input  logic              clk,
  input  logic              rst_n,
  input  logic [FLOORS-1:0] pressed,
  input  logic [FLOORS-1:0] served,
  output logic [FLOORS-1:0] calls
);
  logic [FLOORS-1:0] next;
  assign next = (calls | pressed) & ~served;
  always_ff @(posedge clk or negedge rst_n) begin
    if (!rst_n) calls <= '0;
    else calls <= next;
  end
endmodule

module lift_controller import lift_types::*; (
  input  logic              clk,
  input  logic              rst_n,
  input  logic [FLOORS-1:0] pressed,
  output logic [1:0]        floor,
  output logic              motor,
  output logic              door
);
  phase_t phase, phase_next;
  logic [FLOORS-1:0] calls, served;
  logic [3:0] patience;
  logic [1:0] target;

  call_store store (.clk(clk), .rst_n(rst_n), .pressed(pressed), .served(served), .calls(calls));

  assign target = nearest(calls, floor);
  assign motor = phase == MOVING;
  assign door = phase == WAITING;

  always_comb begin
    phase_next = phase;
    served = '0;
    case (phase)
      RESTING: begin
        if (calls != 0) phase_next = MOVING;
      end
      MOVING: if (floor == target) phase_next = OPENING;
      OPENING: begin
        served[floor] = 1'b1;
        phase_next = WAITING;
      end
      WAITING: begin
        if (patience == PATIENCE) begin
          phase_next = RESTING;
        end
      end
    endcase
  end

  always_ff @(posedge clk or negedge rst_n) begin
    if (!rst_n) begin
      phase <= RESTING;
      floor <= 2'd0;
      patience <= 4'd0;
    end else begin
      phase <= phase_next;
      if (phase == MOVING) begin
        if (floor < target) floor <= floor + 2'd1;
        else if (floor > target) floor <= floor - 2'd1;
      end
      patience <= phase == WAITING ? patience + 4'd1 : 4'd0;
    end
  end
endmodule
