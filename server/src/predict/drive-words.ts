// What a port's name says about it, where the structure says nothing. Words of the trade, told apart at underscores,
// digits and changes of case; a closing n, b or l means active low. Answers are assumptions from a name, and said so.

export type NameRole = 'clock' | 'reset' | 'enable' | 'inactive' | 'direction';

export interface NameHint {
  readonly role: NameRole;
  readonly active: 'high' | 'low';
}

const words: Readonly<Record<NameRole, readonly string[]>> = {
  clock: ['clk', 'clock', 'ck', 'osc'],
  reset: ['rst', 'reset', 'arst', 'srst', 'por'],
  enable: ['en', 'ena', 'enable', 'ce', 'cen', 'run', 'go'],
  inactive: ['clr', 'clear', 'ld', 'load', 'hold', 'stall', 'pause', 'stop', 'flush', 'preset', 'freeze', 'halt'],
  direction: ['up', 'dir', 'direction', 'updown'],
};

/** By the last word that has a meaning; null where none has. */
export function hintOfName(name: string): NameHint | null {
  const parts = partsOf(name.slice(name.lastIndexOf('.') + 1));
  const isLow = parts.length > 1 && /^(n|b|l|bar)$/.test(parts[parts.length - 1]);
  for (const part of [...parts].reverse()) {
    const found = roleOf(part);
    if (found !== null) return { role: found.role, active: isLow || found.isLow ? 'low' : 'high' };
  }
  return null;
}

function roleOf(part: string): { readonly role: NameRole; readonly isLow: boolean } | null {
  for (const [role, list] of Object.entries(words) as [NameRole, readonly string[]][]) {
    if (list.includes(part)) return { role, isLow: false };
    // `rstn`, `nreset`: the mark of the active level without an underscore.
    if (/^n|n$/.test(part) && list.includes(part.replace(/^n|n$/, '')) && role !== 'clock')
      return { role, isLow: true };
  }
  return null;
}

function partsOf(name: string): string[] {
  return name
    .replace(/([a-z])([A-Z])/g, '$1_$2')
    .toLowerCase()
    .split(/[^a-z]+/)
    .filter((part) => part !== '');
}
