// Facts of a finding as sentences read them: by name and kind. What is missing reads as a plain word, never as `undefined`.

import type { FactValue } from '../hazards/finding';

export interface Facts {
  text(name: string, otherwise?: string): string;
  number(name: string): number | null;
  flag(name: string): boolean;
  list(name: string): readonly string[];
}

export function readFacts(facts: Readonly<Record<string, FactValue>>): Facts {
  return {
    text(name, otherwise = 'it') {
      const value = facts[name];
      return typeof value === 'string' || typeof value === 'number' ? String(value) : otherwise;
    },
    number(name) {
      const value = facts[name];
      return typeof value === 'number' ? value : null;
    },
    flag: (name) => facts[name] === true,
    list(name) {
      const value = facts[name];
      return Array.isArray(value) ? value.map(String) : [];
    },
  };
}
