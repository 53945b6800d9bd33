// Ripple counters by hand.
import type { Netlist } from '../../server/src/netlist/netlist';
import { circuit, type Wire } from '../tools/circuit';

/** `stages` registers `q[i]`, falling edge, each clocked by the one before; `zero` is high while all are 0. */
export function ripple(stages: number): Netlist {
  const made = circuit('ripple');
  const clk = made.input('clk');
  const q = made.registers(
    'q',
    { width: stages, port: 'output' },
    Array.from({ length: stages }, (_, low) => ({
      low,
      width: 1,
      edge: 'falling' as const,
      clock: low === 0 ? clk : (self: Wire) => self.bit(low - 1),
      data: (self: Wire) => made.not(self.bit(low)),
      initial: '0',
    })),
  );
  made.output('zero', made.not(made.reduceOr(q)));
  return made.build();
}
