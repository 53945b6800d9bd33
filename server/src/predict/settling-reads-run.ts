// Whether a register behind an enable reads a chain while that may still move: told from a run, since a count that is
// stopped before it is read is nothing to warn of, and only a run shows when its reader is enabled.

import type { Bit } from '../netlist/netlist';
import { sourceBit } from '../netlist/trace';
import type { ReadsContext, SettlingRead } from './settling-read';
import { predictWaves } from './timed-engine';
import { edgesOf, levelAt, originsOf } from './wave-query';
import type { Waves } from './waves';

/** All that are read at every edge, and of the others those that the run shows. Yields as a run does. */
export function* readWhileMoving(
  context: ReadsContext,
  reads: readonly SettlingRead[],
): Generator<void, readonly SettlingRead[]> {
  if (!reads.some(({ isEnabled }) => isEnabled)) return reads;
  const waves = yield* predictWaves(context);
  const origins = originsOf(waves);
  return reads.filter((read) => !read.isEnabled || isShown(context, waves, { origins, read }));
}

function isShown(
  { netlist }: ReadsContext,
  waves: Waves,
  { origins, read }: { readonly origins: Int32Array; readonly read: SettlingRead },
): boolean {
  const { available, heard, path, settle, setup, to } = read;
  const { clock, edge, enables } = netlist.registers[to];
  const moved = movedAt(
    waves,
    origins,
    heard.map((id) => ({ node: netlist.registers[id].node, bit: 0 })),
  );
  const needed = settle.max + path + setup;
  const late = available.typ - available.min;
  return edgesOf(waves, sourceBit(netlist.nodes, clock), edge).some((change) => {
    const at = waves.changes.time[change];
    const isOn = enables.some(({ condition }) => levelAt(waves, { node: condition, bit: 0 }, at, 'before') !== 0);
    if (!isOn) return false;
    const root = waves.changes.time[origins[change]];
    return moved.some((time) => time < root && root - time - late < needed);
  });
}

/** Instants of the root edges that have moved one of the bits, ps. */
function movedAt({ changes, changesOf }: Waves, origins: Int32Array, bits: readonly Bit[]): readonly number[] {
  const times = bits.flatMap((bit) => Array.from(changesOf(bit), (change) => changes.time[origins[change]]));
  return [...new Set(times)];
}
