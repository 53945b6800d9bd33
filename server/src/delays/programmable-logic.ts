// Round numbers for logic inside a programmable device of no maker: an assumption, for seeing which way is long and which
// is short. Wires, which often take more time there than the logic, are in none of them.

import type { DelaySet, DirectionalDelay } from './delay-set';

export const programmableLogic: DelaySet = {
  name: 'programmable-logic',
  sheet: null,
  conditions: 'round numbers for a programmable device of no maker, wires not counted (an assumption)',
  clockToQ: { first: spread(300, 500, 800), next: null },
  stagesPerPart: null,
  logic: {
    buffer: spread(100, 200, 400),
    inverter: spread(100, 200, 400),
    gate: spread(200, 400, 700),
    multiplexer: spread(200, 400, 700),
    comparison: spread(400, 800, 1400),
    arithmetic: spread(600, 1200, 2000),
    shift: spread(400, 800, 1400),
    select: spread(400, 800, 1400),
    tristate: spread(300, 600, 1000),
  },
  latch: spread(300, 500, 800),
  clear: spread(300, 600, 1000),
  setup: { min: 100, typ: 200, max: 300 },
  hold: { min: 0, typ: 50, max: 100 },
  recovery: { min: 100, typ: 200, max: 400 },
  removal: { min: 0, typ: 100, max: 200 },
  width: { min: 500, typ: 700, max: 1000 },
  period: null,
  tau: null,
  window: null,
};

function spread(min: number, typ: number, max: number): DirectionalDelay {
  return { rise: { min, typ, max }, fall: { min, typ, max } };
}
