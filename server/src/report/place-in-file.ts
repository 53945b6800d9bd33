// Where one file of a study brings in another: the include directive that leads there, or the instance below which a module
// of the other file stands. For readers who see one file at a time.

import type { Netlist } from '../netlist/netlist';
import type { Reading } from '../syntax/read';
import { type Site, spanOfRange } from '../text/origin';
import type { Span } from '../text/place';
import type { Study } from './study';

/** `at` itself where it stands in the file; null where the file does not bring in the other. */
export function* placeInFile(study: Study, path: string, at: Span): Generator<void, Span | null> {
  if (at.file === path) return at;
  const reading = yield* study.reading();
  const included = includeOf(reading, path, at.file);
  if (included !== null) return included;
  const { netlist } = yield* study.elaboration();
  if (netlist === null) return null;
  const places = yield* study.places();
  const instances = instancesOf(netlist, modulesOf(reading, at.file)).map(({ place }) => places.spanOf(place));
  return instances.find(({ file }) => file === path) ?? null;
}

function includeOf({ files, units }: Reading, path: string, included: string): Span | null {
  const asked = files.findIndex((file) => file.path === included);
  const here = files.findIndex((file) => file.path === path);
  for (const { file, origin } of units) {
    if (file !== here) continue;
    const segment = origin.map.segments.find(({ range, site }) => range.file === asked && site !== null);
    const site = segment === undefined ? null : outermost(segment.site);
    if (site?.range.file === here) return spanOfRange(files, site.range);
  }
  return null;
}

function outermost(site: Site | null): Site | null {
  let found = site;
  while (found !== null && found.outer !== null) found = found.outer;
  return found;
}

function modulesOf({ files, units }: Reading, path: string): ReadonlySet<string> {
  const inFile = units.filter(({ file }) => files[file].path === path);
  return new Set(inFile.flatMap(({ table }) => (table.kind === 'module' ? [table.name.name] : [])));
}

/** Instances of these modules and all that they stand below. */
function instancesOf({ instances }: Netlist, modules: ReadonlySet<string>): Netlist['instances'] {
  const found = new Set<Netlist['instances'][number]>();
  for (const instance of instances.filter(({ module }) => modules.has(module))) {
    for (let above = instance; !found.has(above); above = instances[above.parent]) {
      found.add(above);
      if (above.parent === null) break;
    }
  }
  return [...found];
}
