// Makes node columns. Nodes are hash-consed: asking twice for the same operator, width, operands and aux gives the
// same node, whose place is the first one's. `net`, `delay` and source nodes are told apart by their aux.
