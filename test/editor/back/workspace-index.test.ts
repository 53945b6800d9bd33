import { describe, expect, it } from 'vitest';
import { createWorkspaceIndex } from '../../../server/src/editor/back/workspace-index';
import { scanFile } from '../../../server/src/report/scan-file';
import { toEnd } from '../../tools/report-of';

const at = (path: string) => `file:///p/${path}`;

function indexOf(files: Readonly<Record<string, string>>) {
  const index = createWorkspaceIndex();
  for (const [path, text] of Object.entries(files)) index.put(at(path), toEnd(scanFile(text)));
  return index;
}

const all = { libraries: [], most: 100, onTheWay: null };

describe('of files that hold one name', () => {
  const m = 'module m; endmodule';
  const files = { 'far/deep/m.v': m, 'rtl/sub/x.v': m, 'lib/y.v': m, 'rtl/z.v': m };

  it('the one beside the asking file comes first, then libraries, then the nearest', () => {
    const index = indexOf(files);
    expect(index.filesOf('m', at('rtl/top.v'), [])).toEqual(
      ['rtl/z.v', 'rtl/sub/x.v', 'lib/y.v', 'far/deep/m.v'].map(at),
    );
    expect(index.filesOf('m', at('rtl/top.v'), [at('far/')])).toEqual(
      ['rtl/z.v', 'far/deep/m.v', 'rtl/sub/x.v', 'lib/y.v'].map(at),
    );
  });

  it('none is left once the file holds it no more', () => {
    const index = indexOf({ 'a.v': m });
    expect(index.put(at('a.v'), toEnd(scanFile('module n; endmodule')))).toEqual(['m', 'n']);
    expect(index.filesOf('m', at('b.v'), [])).toEqual([]);
    expect(index.put(at('a.v'), null)).toEqual(['n']);
    expect(index.uris()).toEqual([]);
  });

  it('is known by however its address is escaped', () => {
    const index = indexOf({ 'a%20b.v': m });
    expect(index.put('file:///p/a b.v', toEnd(scanFile(m)))).toEqual([]);
    expect(index.units()).toHaveLength(1);
  });
});

describe('what a file needs', () => {
  const files = {
    'top.v': 'module top; mid u(); import p::*; endmodule',
    'mid.v': 'module mid(bus.master b); leaf #(2) l(); unknown x(); endmodule',
    'leaf.v': 'module leaf; endmodule',
    'p.sv': 'package p; endpackage',
    'bus.sv': 'interface bus; endinterface',
  };
  const needed = (from: string, below: object = {}) =>
    indexOf(files)
      .filesBelow([at(from)], { ...all, ...below })
      .map(({ uri }) => uri.split('/').at(-1));

  it('is found through all that is used', () => {
    expect(needed('top.v').sort()).toEqual(['bus.sv', 'leaf.v', 'mid.v', 'p.sv']);
    expect(needed('leaf.v')).toEqual([]);
  });

  it('is cut where it does not matter', () => {
    expect(needed('top.v', { onTheWay: new Set(['leaf']) }).sort()).toEqual(['leaf.v', 'mid.v', 'p.sv']);
    expect(needed('top.v', { most: 1 }).length).toBeLessThanOrEqual(2);
  });

  it('is not taken twice, in a circle neither', () => {
    const index = indexOf({
      'a.v': 'module a; b u(); endmodule',
      'b.v': 'module b; a u(); endmodule',
      'c.v': 'module b; endmodule',
    });
    expect(index.filesBelow([at('a.v')], all)).toMatchObject([
      { uri: at('b.v'), name: 'b', asking: at('a.v'), others: 1 },
    ]);
  });

  it('is told backwards too', () => {
    const names = (from: string) =>
      indexOf(files)
        .unitsAbove([from])
        .map(({ unit }) => unit.name);
    expect(names('leaf')).toEqual(['mid', 'top']);
    expect(names('bus')).toEqual(['mid', 'top']);
    expect(names('top')).toEqual([]);
  });
});
