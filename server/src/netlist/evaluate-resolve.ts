// Several drivers on one net, and the driver that can let go. Strengths are not modelled: every driver is strong, only
// the pull of tri0 and tri1 gives way (IEEE 1364-2005 4.6, Tables 4-2 to 4-6).

import { type Bits, fromLimbs, limbCount, zeroPlane } from './four-state';
import type { ResolutionKind } from './netlist';

/** The value of a net from all its drivers, of one width. z gives way; 0 against 1 is x, or what the net type says. */
export function resolve(kind: ResolutionKind, drivers: readonly Bits[]): Bits {
  const { width } = drivers[0];
  const a = new Uint32Array(limbCount(width));
  const b = new Uint32Array(limbCount(width));
  for (let limb = 0; limb < a.length; limb++) {
    let low = 0;
    let high = 0;
    let unknown = 0;
    for (const driver of drivers) {
      low |= ~driver.a[limb] & ~driver.b[limb];
      high |= driver.a[limb] & ~driver.b[limb];
      unknown |= driver.a[limb] & driver.b[limb];
    }
    const one = drivenHigh(kind, low, high, unknown);
    const nought = drivenLow(kind, low, high, unknown);
    const free = ~(low | high | unknown);
    const driven = ~free;
    a[limb] = (kind === 'tri1' ? one | free : one) | (driven & ~one & ~nought);
    b[limb] = kind === 'tri0' || kind === 'tri1' ? driven & ~one & ~nought : ~one & ~nought;
  }
  return fromLimbs(width, a, b);
}

/** A tri-state driver (7.4, Table 7-5): z while disabled, x while the enable is unknown; driven, z comes out as x. */
export function tristate(data: Bits, enable: Bits): Bits {
  const limbs = data.a.length;
  if (enable.b[0] !== 0) {
    const full = new Uint32Array(limbs).fill(0xffffffff);
    return fromLimbs(data.width, full, full.slice());
  }
  if (enable.a[0] === 0) return fromLimbs(data.width, zeroPlane(limbs), new Uint32Array(limbs).fill(0xffffffff));
  const a = data.a.map((limb, index) => limb | data.b[index]);
  return fromLimbs(data.width, a, data.b);
}

function drivenHigh(kind: ResolutionKind, low: number, high: number, unknown: number): number {
  if (kind === 'wor') return high;
  return high & ~low & ~unknown;
}

function drivenLow(kind: ResolutionKind, low: number, high: number, unknown: number): number {
  if (kind === 'wand') return low;
  return low & ~high & ~unknown;
}
