// What a frame of the picture costs: the whole of it, shapes made and painted on a canvas that only records, against the
// path alone that a plotting library builds of one series; and a run of a million changes against one of ten thousand.

import { drawPicture } from '../../server/src/drawing/picture';
import { type Scene, sceneOf } from '../../server/src/drawing/scene';
import { openingView, plotWidth, type View } from '../../server/src/drawing/view';
import { paint, type Palette } from '../../webview/src/paint';
import { previewOf, traceOf } from '../drawing/previews';
import type { Claim } from './claim';
import { interleave } from './interleave';
import { pathBuilder } from './plotting-library';
import { recordingSurface } from './recording-canvas';

/** ps */
const end = 1_000_000_000;
const size = { width: 1400, height: 1200 };
const many = 1_000_000;
const few = 10_000;
const traces = 32;
const rounds = 7;
/** Frames too short for the clock are drawn so often, and the time divided. */
const repeats = 50;

const surface = recordingSurface();
// Colors are not looked at where nothing is drawn.
const palette = {} as Palette;

export function* benchDrawing(): Generator<Claim> {
  yield* againstPaths();
  yield againstShortRuns();
}

/** One trace, the whole run in view. */
function againstPaths(): readonly Claim[] {
  const scene = sceneOfRandom(1, many);
  const view = openingView(scene.data, size);
  const [{ at }] = scene.data.traces.map(({ changes }) => changes);
  const series = { times: at, levels: at.map((_, index) => (index + 1) % 2), width: plotWidth(view), height: 18 };
  const times = interleave(rounds, {
    frames: () => {
      for (let frame = 0; frame < repeats; frame += 1) drawFrame(scene, view);
    },
    line: pathBuilder('line', series),
    stepped: pathBuilder('stepped', series),
  });
  const subject = `drawing one trace of ${told(many)} changes, the whole run in view`;
  const candidate = { name: 'a frame', value: times.frames / repeats, unit: 'ms' } as const;
  return [
    { subject, candidate, baseline: { name: "uPlot's line path", value: times.line, unit: 'ms' }, bound: 0.08 },
    { subject, candidate, baseline: { name: "uPlot's stepped path", value: times.stepped, unit: 'ms' }, bound: 0.002 },
  ];
}

/** The same windows of both runs, from the whole of it to where a hundred changes of the longer one are seen. */
function againstShortRuns(): Claim {
  const scenes = { many: sceneOfRandom(traces, many), few: sceneOfRandom(traces, few) };
  const views = viewsOf(openingView(scenes.many.data, size));
  const times: { readonly many: number[]; readonly few: number[] } = { many: [], few: [] };
  for (let round = 0; round <= rounds; round += 1) {
    for (const view of views) {
      for (const kind of ['many', 'few'] as const) {
        const time = cpuTime(() => drawFrame(scenes[kind], view));
        if (round > 0) times[kind].push(time);
      }
    }
  }
  return {
    subject: `drawing ${traces} traces, 95th percentile of ${views.length} frames from the whole run to its smallest part`,
    candidate: { name: `runs of ${told(many)} changes`, value: percentile(times.many, 0.95), unit: 'ms' },
    baseline: { name: `runs of ${told(few)} changes`, value: percentile(times.few, 0.95), unit: 'ms' },
    bound: 1.3,
  };
}

function viewsOf(whole: View): readonly View[] {
  const views: View[] = [];
  for (let span = end; span >= end / 10_000; span /= 1.25) {
    for (const place of [0.2, 0.5, 0.8]) {
      const from = (end - span) * place;
      views.push({ ...whole, from, to: from + span });
    }
  }
  return views;
}

function drawFrame(scene: Scene, view: View): void {
  paint(surface, drawPicture(scene, view), palette);
}

/** Bits that change at random, as often on average all along the run. They share their list of values. */
function sceneOfRandom(count: number, changes: number): Scene {
  const value = Array.from({ length: changes }, (_, index) => (index % 2 === 0 ? '1' : '0'));
  const link = value.map(() => 0);
  const random = randomFrom(changes);
  const all = Array.from({ length: count }, (_, index) =>
    traceOf(`q[${index}]`, { changes: { at: instants(changes, random), value, link } }),
  );
  return sceneOf(previewOf({ end, traces: all }));
}

/** Strictly increasing ps up to about the end of the run. */
function instants(count: number, random: () => number): readonly number[] {
  const longest = (end / count) * 2 - 1;
  let time = 0;
  return Array.from({ length: count }, () => {
    time += 1 + Math.floor(random() * longest);
    return time;
  });
}

/** Numbers from 0 to 1, the same for the same seed. */
function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

function cpuTime(work: () => void): number {
  const before = process.cpuUsage();
  work();
  const { system, user } = process.cpuUsage(before);
  return (user + system) / 1_000;
}

function told(count: number): string {
  return count.toLocaleString('en-US');
}

function percentile(times: readonly number[], part: number): number {
  return [...times].sort((left, right) => left - right)[Math.floor(times.length * part)];
}
