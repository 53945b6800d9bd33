// Identifiers as the tables hold them. An escaped identifier that spells an ordinary name is that name
// (IEEE 1364-2005 3.7.1: `\cpu3 ` and `cpu3` are the same); any other keeps its backslash and one closing space.

import { atOf } from './flat-tree';
import { isKeyword } from './keywords';
import { type Reader, textOf } from './reader';
import type { Named } from './tables';

export function nameOf(reader: Reader, node: number): Named {
  const { start, end } = atOf(reader.tree, node);
  return { start, end, name: canonicalName(textOf(reader, node)) };
}

export function canonicalName(written: string): string {
  if (written.charCodeAt(0) !== backslash) return written;
  const plain = written.slice(1).trimEnd();
  return ordinaryName.test(plain) && !isKeyword(plain) ? plain : `\\${plain} `;
}

export function isName(kind: string): boolean {
  return kind === 'simple_identifier' || kind === 'escaped_identifier';
}

const backslash = 0x5c;
const ordinaryName = /^[A-Za-z_][A-Za-z0-9_$]*$/;
