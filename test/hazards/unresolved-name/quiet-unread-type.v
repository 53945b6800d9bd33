//>> because a type that is not read is declared all the same: it is said once, and what is of it is unknown
module unread_type(input clk, input d, output reg q);
  typedef struct packed { string a; logic b; } pair_t;  //> typedef finding unsupported
  typedef union tagged packed { logic [1:0] one; logic [1:0] other; } both_t;  //> typedef finding unsupported
  typedef string words_t [0:3];  //> typedef finding unsupported
  pair_t pair;  //> pair_t quiet
  both_t both;  //> both_t quiet
  words_t words;  //> words_t quiet
  always @(posedge clk) q <= d;
endmodule
