// Paths and timing checks of a module with the nodes of its template; pulse limits go to the paths that they are for.

import type { NodeId, SignalId } from '../netlist/netlist';
import type { Finishing } from './finishing';
import type { CheckDraft, CheckEventDraft, ModuleDraft, PathDraft } from './module-draft';
import type { TemplateCheck, TemplateEvent, TemplatePath, TemplateSpecified } from './template';

export function finishSpecified(finishing: Finishing): TemplateSpecified | null {
  const { paths, checks } = finishing.draft.specified;
  if (paths.length === 0 && checks.length === 0) return null;
  return {
    paths: paths.map((path) => finishPath(finishing, path)),
    checks: checks.map((check) => finishCheck(finishing, check)),
  };
}

function finishPath({ convert, draft }: Finishing, path: PathDraft): TemplatePath {
  const { condition, delays, edge, from, full, guard, to } = path;
  return {
    from: convert(from),
    to: { ...to, signal: to.signal as SignalId },
    full,
    edge,
    delays,
    condition: converted(convert, condition),
    isFallback: guard === 'ifnone',
    pulse: pulseOf(draft, path),
    pulseStyle: draft.specified.onDetect.has(to.signal) ? 'ondetect' : 'onevent',
    place: draft.source.place(path.at),
  };
}

/** Those of the path win over those of the module (14.6.1); the last of equals. */
function pulseOf({ specified }: ModuleDraft, { names }: PathDraft): TemplatePath['pulse'] {
  const own = specified.pulses.filter(({ between }) => between?.from === names.from && between.to === names.to);
  const general = specified.pulses.filter(({ between }) => between === null);
  return own.at(-1) ?? general.at(-1) ?? null;
}

function finishCheck(finishing: Finishing, { at, data, kind, limits, reference }: CheckDraft): TemplateCheck {
  return {
    kind,
    limits,
    reference: finishEvent(finishing, reference),
    data: data === null ? null : finishEvent(finishing, data),
    place: finishing.draft.source.place(at),
  };
}

function finishEvent({ convert, draft }: Finishing, { at, condition, edges, node }: CheckEventDraft): TemplateEvent {
  return { node: convert(node), edges, condition: converted(convert, condition), text: draft.source.textOf(at) };
}

function converted(convert: Finishing['convert'], node: NodeId | null): NodeId | null {
  return node === null ? null : convert(node);
}
