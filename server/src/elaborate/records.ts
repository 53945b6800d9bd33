// Variables and nets of a structure's type (IEEE 1800-2017 7.2): every member becomes a signal with its own name behind the
// structure's, so that it is clocked, started, counted and shown like any other. What is declared in a function or task, and
// what is a union or an array of structures, stays one signal.

import type { RecordForm } from '../netlist/packed-form';
import { type LocalSignal, shapeOfForm, type SignalShape } from './local-signal';
import { createSignal, type ModuleDraft, type NewSignal } from './module-draft';
import type { RecordEntity, RecordPart } from './scope';

/** Whether a declaration of this shape is taken apart. */
export function isTakenApart(shape: SignalShape): shape is SignalShape & { readonly packed: RecordForm } {
  return shape.packed?.kind === 'record' && !shape.packed.isUnion;
}

export function declareRecord(
  draft: ModuleDraft,
  whole: NewSignal & { readonly shape: { readonly packed: RecordForm } },
): RecordEntity {
  const record = recordOf(draft, whole, whole.shape.packed);
  whole.scope.names.set(whole.name, record);
  return record;
}

function recordOf(draft: ModuleDraft, whole: NewSignal, form: RecordForm): RecordEntity {
  const { at, name, scope, shape } = whole;
  const members = new Map<string, LocalSignal | RecordEntity>();
  const parts: RecordPart[] = [];
  for (const member of form.members) {
    const type = shape.kind === 'net' ? shape.type : member.type;
    const own = { ...whole, name: `${name}.${member.name}`, shape: shapeOfForm(shape.kind, type, member.form) };
    const { low } = member;
    if (isTakenApart(own.shape)) {
      const inner = recordOf(draft, own, own.shape.packed);
      members.set(member.name, inner);
      parts.push(...inner.parts.map((part) => ({ ...part, low: low + part.low })));
    } else {
      const signal = createSignal(draft, own);
      members.set(member.name, signal);
      parts.push({ signal, low });
    }
  }
  const own = shapeOfForm(shape.kind, shape.type, form);
  return { kind: 'record', at, name, path: `${scope.prefix}${name}`, shape: own, form, members, parts };
}
