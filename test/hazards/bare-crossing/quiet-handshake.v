//>> because the data waits until its request has come over and the answer has come back
module handshake(input clk_a, clk_b, rst, send, input [7:0] data, output reg [7:0] got);  //> rst finding reset-release
  reg request, answer, answer_1, answer_2, request_1, request_2, request_3;
  reg [7:0] held;
  always @(posedge clk_a or posedge rst)
    if (rst) {request, answer_1, answer_2, held} <= 0;
    else begin
      answer_1 <= answer;
      answer_2 <= answer_1;
      if (send && request == answer_2) begin
        held <= data;
        request <= ~request;
      end
    end
  always @(posedge clk_b or posedge rst)
    if (rst) {request_1, request_2, request_3, answer, got} <= 0;
    else begin
      request_1 <= request;
      request_2 <= request_1;
      request_3 <= request_2;
      if (request_2 != request_3) begin
        got <= held;  //> got quiet, crossing protected handshake
        answer <= request_2;
      end
    end
endmodule
