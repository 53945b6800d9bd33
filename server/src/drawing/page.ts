// The self-contained page: the data, one script and one style inside, and a policy that allows nothing else. Everything
// that is not the picture stands here as plain elements, so that it reads without the script too.

import type { PreviewData, PreviewStates } from '../report/preview-data';
import type { ReportFinding } from '../report/report';
import { factTables } from './fact-tables';
import { drawStates } from './state-picture';
import { statesHead, statesTable } from './state-tables';
import { escapeMarkup, plainSvgOf } from './svg';
import { visibleText } from './visible-text';

export interface PageAssets {
  readonly script: string;
  readonly style: string;
  /** Base64 SHA-256 of each, for the policy. */
  readonly scriptDigest: string;
  readonly styleDigest: string;
}

/** Entries of one list of a table; the picture shows every one. */
const listed = 256;

export function previewPage(data: PreviewData, assets: PageAssets): string {
  const title = data.top === null ? 'no design' : data.top;
  const policy = `default-src 'none'; script-src 'sha256-${assets.scriptDigest}'; style-src 'sha256-${assets.styleDigest}'; base-uri 'none'; form-action 'none'`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${shown(title)} - Timing preview</title>
<style>${assets.style}</style>
</head>
<body>
<h1>${shown(title)}</h1>
<ul class="headline">${data.headline.map((line) => `<li>${shown(line)}</li>`).join('')}</ul>
<main>
${data.traces.length === 0 ? '' : picture()}
${data.cut === null ? '' : `<p>${shown(data.cut)}</p>`}
${whatIf(data)}
${findings(data)}
${states(data)}
${review(data)}
${assumptions(data)}
${table(data)}
<h2>What is not seen</h2>
<ul>${data.cautions.map((line) => `<li>${shown(line)}</li>`).join('')}</ul>
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

/** Said before all else that is not the picture: it is what was asked for. */
function whatIf({ whatIf: asked }: PreviewData): string {
  if (asked === null) return '';
  const items = asked.refused === null ? asked.answer : [`not told: ${asked.refused}`];
  const heads = asked.asked.map(({ words }) => shown(words)).join('; ');
  return `<h2>What if</h2>\n<p>${heads}${asked.traces.length === 0 ? '' : ' (in dashes in the picture)'}</p>\n<ul>${items.map((line) => `<li>${shown(line)}</li>`).join('')}</ul>`;
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
  return `<li><span class="weight">${id}</span> (${weight}) <span class="place">${shown(place)}</span><br>${shown(message)}</li>`;
}

/** Folded away: the head says what most come for. */
function states({ states: list }: PreviewData): string {
  const told = list.filter(({ why }) => why === null).map(statesOf);
  const refused = list.filter(({ why }) => why !== null).map((each) => `<li>${shown(statesHead(each))}</li>`);
  const untold =
    refused.length === 0
      ? ''
      : `<details><summary>${refused.length} not told</summary>\n<ul>${refused.join('')}</ul></details>`;
  return list.length === 0 ? '' : `<h2>States</h2>\n${[...told, untold].join('\n')}`;
}

function statesOf(data: PreviewStates): string {
  const { heads, rows } = statesTable(data, listed);
  const picture = drawStates(data);
  const title = `The steps between the states of ${visibleText(data.registers.join(' '))}; the table below says the same`;
  const drawn =
    picture === null
      ? ''
      : `<div class="states" tabindex="0" role="group" aria-label="Diagram">${plainSvgOf(picture, title)}</div>`;
  return `<details><summary>${shown(statesHead(data))}</summary>
<p>${shown(data.sure)}</p>
${drawn}
${tableOf(heads, rows)}
</details>`;
}

/** Folded away; whoever reviews the design opens it. */
function review({ review: list }: PreviewData): string {
  if (list.length === 0) return '';
  const rows = list
    .slice(0, listed)
    .map(({ about, span, text }) => [about, text, span === null ? '' : `${span.file}:${span.line}`]);
  const rest = list.length > listed ? `<p>and ${list.length - listed} more, in the report</p>` : '';
  return `<h2>Review</h2>
<details><summary>${list.length} things that were looked at, and what was not</summary>
${tableOf(['about', 'what it is', 'where'], rows)}
${rest}</details>`;
}

function assumptions({ assumptions: list }: PreviewData): string {
  const rows = list.map(({ about, reason, value }) => [about, value, reason]);
  return list.length === 0 ? '' : `<h2>Assumed</h2>\n${tableOf(['about', 'value', 'because'], rows)}`;
}

/** The facts of the picture in words, for a screen reader and for copying. */
function table(data: PreviewData): string {
  if (data.traces.length === 0) return '';
  const tables = factTables(data, { radix: 'decimal', from: 0, to: data.end, most: listed });
  return `<h2>The picture as tables</h2>
<details><summary>Every trace with its changes</summary>
${tables.map(({ caption, heads, rows }) => `<h3>${caption}</h3>\n${tableOf(heads, rows)}`).join('\n')}
</details>`;
}

/** Nothing where there are no rows. */
function tableOf(heads: readonly string[], rows: readonly (readonly string[])[]): string {
  if (rows.length === 0) return '';
  const head = heads.map((text) => `<th scope="col">${text}</th>`).join('');
  const body = rows.map((cells) => `<tr>${cells.map(cell).join('')}</tr>`).join('\n');
  return `<table><thead><tr>${head}</tr></thead><tbody>\n${body}\n</tbody></table>`;
}

function cell(text: string): string {
  return `<td>${shown(text)}</td>`;
}

/** Whatever design and files say, as it can be read. */
function shown(text: string): string {
  return escapeMarkup(visibleText(text));
}

/** No `<` inside, so that nothing in it can end the element or open another. */
function embedded(data: PreviewData): string {
  return JSON.stringify(data)
    .replaceAll('<', '\\u003c')
    .replaceAll('\u2028', '\\u2028')
    .replaceAll('\u2029', '\\u2029');
}
