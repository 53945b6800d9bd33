// Keeps the whole state of a settled machine at rest, to come back to it: for exploring what other states lead to.

import type { SettledMachine } from './settled-machine';

export interface Snapshot {
  readonly a: Uint32Array;
  readonly b: Uint32Array;
  readonly pins: Uint8Array;
  readonly sampled: readonly { readonly a: Uint32Array; readonly b: Uint32Array }[];
  readonly controls: readonly Uint8Array[];
  readonly lastControls: readonly Uint8Array[];
}

export function takeSnapshot({ values, pins, sampled, controls, lastControls }: SettledMachine): Snapshot {
  return {
    a: values.a.slice(),
    b: values.b.slice(),
    pins: pins.slice(),
    sampled: sampled.map(({ a, b }) => ({ a: a.slice(), b: b.slice() })),
    controls: controls.map((levels) => levels.slice()),
    lastControls: lastControls.map((levels) => levels.slice()),
  };
}

/** The snapshot must be of the same machine. */
export function restoreSnapshot(machine: SettledMachine, snapshot: Snapshot): void {
  machine.values.a.set(snapshot.a);
  machine.values.b.set(snapshot.b);
  machine.pins.set(snapshot.pins);
  snapshot.sampled.forEach(({ a, b }, register) => {
    machine.sampled[register].a.set(a);
    machine.sampled[register].b.set(b);
    machine.controls[register].set(snapshot.controls[register]);
    machine.lastControls[register].set(snapshot.lastControls[register]);
  });
}
