// The self-contained page: the data, one script and one style inside, and a policy that allows nothing else. Everything
// that is not the picture stands here as plain elements, so that it reads without the script too.

import type { PreviewData, PreviewTrace } from '../report/preview-data';
import type { ReportFinding } from '../report/report';
import { valueText } from './digits';
import { escapeMarkup } from './svg';
import { timeWords } from '../text/time-words';

export interface PageAssets {
  readonly script: string;
  readonly style: string;
  /** Base64 SHA-256 of each, for the policy. */
  readonly scriptDigest: string;
  readonly styleDigest: string;
}

/** Changes listed per trace in the table, and glitches in all; the picture shows every one. */
const listedChanges = 64;
const listedGlitches = 256;

export function previewPage(data: PreviewData, assets: PageAssets): string {
  const title = data.top === null ? 'no design' : data.top;
  const policy = `default-src 'none'; script-src 'sha256-${assets.scriptDigest}'; style-src 'sha256-${assets.styleDigest}'; base-uri 'none'; form-action 'none'`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeMarkup(title)} - Timing preview</title>
<style>${assets.style}</style>
</head>
<body>
<h1>${escapeMarkup(title)}</h1>
<ul class="headline">${data.headline.map((line) => `<li>${escapeMarkup(line)}</li>`).join('')}</ul>
<main>
${data.traces.length === 0 ? '' : picture()}
${data.cut === null ? '' : `<p>${escapeMarkup(data.cut)}</p>`}
${findings(data)}
${assumptions(data)}
${table(data)}
<h2>What is not seen</h2>
<ul>${data.cautions.map((line) => `<li>${escapeMarkup(line)}</li>`).join('')}</ul>
</main>
<script type="application/json" id="data">${embedded(data)}</script>
${data.traces.length === 0 ? '' : `<script>${assets.script}</script>`}
</body>
</html>
`;
}

function picture(): string {
  return `<div class="bar" role="toolbar" aria-label="Picture">
<button type="button" data-step="fit">Whole run</button>
<button type="button" data-step="zoom-in">Zoom in</button>
<button type="button" data-step="zoom-out">Zoom out</button>
<label>Values in <select id="radix"><option value="decimal">decimal</option><option value="hexadecimal">hexadecimal</option><option value="binary">binary</option></select></label>
<span class="hint" id="keys">Keys: left and right step edge by edge, up and down trace by trace, Enter goes to the cause and Backspace back, Space folds, + and − zoom, Home shows the whole run</span>
</div>
<div id="stage" tabindex="0" role="application" aria-label="Waveforms" aria-describedby="keys"><div id="extent"><canvas id="waves" aria-hidden="true"></canvas></div></div>
<div id="account-box" aria-live="polite"><ul id="account"></ul></div>`;
}

function findings({ findings: list }: PreviewData): string {
  const items = list.map(findingItem).join('\n');
  return `<h2>Findings</h2>\n${items === '' ? '<p>None in what was analyzed; what is not seen stands below.</p>' : `<ul class="findings">${items}</ul>`}`;
}

function findingItem(finding: ReportFinding): string {
  const { id, severity, certainty, message, span, accepted } = finding;
  const weight = [severity, certainty, accepted === null ? null : 'accepted']
    .filter((word) => word !== null)
    .join(', ');
  const place = `${span.file}:${span.line}:${span.column}`;
  return `<li><span class="weight">${id}</span> (${weight}) <span class="place">${escapeMarkup(place)}</span><br>${escapeMarkup(message)}</li>`;
}

function assumptions({ assumptions: list }: PreviewData): string {
  const rows = list.map(({ about, reason, value }) => [about, value, reason]);
  return list.length === 0 ? '' : `<h2>Assumed</h2>\n${tableOf(['about', 'value', 'because'], rows)}`;
}

/** The facts of the picture in words, for a screen reader and for copying. */
function table(data: PreviewData): string {
  if (data.traces.length === 0) return '';
  const { glitches, readings, traces } = data;
  const order = (bits: readonly string[]) => `read ${bits.join(' ')}, most significant first`;
  return `<h2>The picture as a table</h2>
<details><summary>Every trace with its changes</summary>
${tableOf(['trace', 'what it is', 'start', 'changes'], traces.map(traceCells))}
${tableOf(
  ['reading', 'sequence', 'bit order'],
  readings.map(({ bits, caption, name }) => [name, caption, order(bits)]),
)}
${tableOf(
  ['pulse on', 'at', 'what it is'],
  glitches.slice(0, listedGlitches).map(({ at, trace, words }) => [traces[trace].name, timeWords(at), words]),
)}
</details>`;
}

/** Nothing where there are no rows. */
function tableOf(heads: readonly string[], rows: readonly (readonly string[])[]): string {
  if (rows.length === 0) return '';
  const head = heads.map((text) => `<th scope="col">${text}</th>`).join('');
  const body = rows.map((cells) => `<tr>${cells.map(cell).join('')}</tr>`).join('\n');
  return `<table><thead><tr>${head}</tr></thead><tbody>\n${body}\n</tbody></table>`;
}

function traceCells({ name, kind, note, clock, start, changes }: PreviewTrace): readonly string[] {
  const what = [kind, clock === null ? '' : `clocked by ${clock.signal} ${clock.edge}`, note].filter(
    (word) => word !== '',
  );
  const listed = changes.at
    .slice(0, listedChanges)
    .map((at, index) => `${valueText(changes.value[index], 'decimal')} at ${timeWords(at)}`);
  const more = changes.at.length - listed.length;
  const all = [...listed, ...(more > 0 ? [`and ${more} more`] : [])].join(', ');
  return [name, what.join(', '), valueText(start, 'decimal'), all === '' ? 'none' : all];
}

function cell(text: string): string {
  return `<td>${escapeMarkup(text)}</td>`;
}

/** No `<` inside, so that nothing in it can end the element or open another. */
function embedded(data: PreviewData): string {
  return JSON.stringify(data)
    .replaceAll('<', '\\u003c')
    .replaceAll('\u2028', '\\u2028')
    .replaceAll('\u2029', '\\u2029');
}
