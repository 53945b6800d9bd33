// The words of gate primitives that are read (IEEE 1364-2005 7.1), as `GateType` of the tables has them.

export const gateWords: ReadonlySet<string> = new Set([
  'and',
  'nand',
  'or',
  'nor',
  'xor',
  'xnor',
  'buf',
  'not',
  'bufif0',
  'bufif1',
  'notif0',
  'notif1',
  'pullup',
  'pulldown',
]);
