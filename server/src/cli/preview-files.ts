// The files that a preview leaves behind: the self-contained page, and the picture alone. The page's script and style
// stand beside the bundle; their digests are the only thing that its policy lets run.

import { createHash } from 'node:crypto';
import path from 'node:path';
import { previewPage } from '../drawing/page';
import { sceneOf } from '../drawing/scene';
import { drawSheet } from '../drawing/sheet';
import { svgOf } from '../drawing/svg';
import { handoutView } from '../drawing/view';
import type { PreviewData } from '../report/preview-data';
import { refuse } from '../report/refusal';
import type { World } from './world';

/** Writes `preview.html` into a folder and says where, as given, with `/`. */
export function writePage(world: World, folder: string, preview: PreviewData): string {
  const script = readBundled(world, 'preview-page.js');
  const style = readBundled(world, 'preview-page.css');
  const digests = { scriptDigest: digestOf(script), styleDigest: digestOf(style) };
  return writeInto(world, folder, { name: 'preview.html', text: previewPage(preview, { script, style, ...digests }) });
}

/** Writes `preview.svg`, the whole run as a sheet on a light ground, and says where. */
export function writePicture(world: World, folder: string, preview: PreviewData): string {
  const picture = drawSheet(sceneOf(preview), handoutView(preview));
  return writeInto(world, folder, { name: 'preview.svg', text: svgOf(picture, preview.top ?? 'no design') });
}

/** Writes `preview.vcd`, the whole run as a value change dump, and says where. */
export function writeDumpFile(world: World, folder: string, text: string): string {
  return writeInto(world, folder, { name: 'preview.vcd', text });
}

function readBundled(world: World, name: string): string {
  const text = world.readText(path.join(world.packageFolder, 'dist', name));
  return text ?? refuse(`${name} of the package is missing; build it again`);
}

function digestOf(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('base64');
}

function writeInto(world: World, folder: string, file: { readonly name: string; readonly text: string }): string {
  const shown = path.join(folder, file.name);
  world.writeText(path.resolve(world.currentFolder, shown), file.text);
  return path.sep === '\\' ? shown.replaceAll('\\', '/') : shown;
}
