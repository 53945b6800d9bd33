// Interfaces, packages and declarations outside every unit, as tables (IEEE 1800-2017 3.12, 25, 26).

import { describe, expect, test } from 'vitest';
import type { Item, ModuleTable } from '../../../server/src/syntax/tables';
import { readText } from '../../tools/reading';

async function first(text: string): Promise<{ table: ModuleTable | null; said: readonly string[] }> {
  const { complaints, units } = await readText(text);
  const unit = units[0]?.table;
  const table = unit?.kind === 'other' ? unit.describes : (unit ?? null);
  return {
    table,
    said: complaints.map(({ reason, args, place }) => `${reason} ${Object.values(args)} @${place.start}`),
  };
}

function modports(items: readonly Item[]): readonly string[] {
  return items.flatMap((item) =>
    item.kind !== 'modport'
      ? []
      : `${item.name.name}: ${item.members.map(({ role, name, expression }) => `${role} ${name.name}${expression === null ? '' : `=${expression.kind}`}`)}`,
  );
}

describe('interfaces', () => {
  test('ports, parameters, signals and modports', async () => {
    const { table, said } = await first(`interface bus #(parameter W = 8) (input logic clk);
  logic [W-1:0] data; logic valid, ready;
  modport master(input ready, clk, output data, .v(valid), import f, task t(input int x)), slave(output ready, ref data);
  modport none();
endinterface : bus`);
    expect(said).toEqual([]);
    expect(table?.name.name).toBe('bus');
    expect(table?.ports.map(({ declarator }) => declarator.name.name)).toEqual(['clk']);
    expect(modports(table?.items ?? [])).toEqual([
      'master: input ready,input clk,output data,output v=name,import f,import t',
      'slave: output ready,inout data',
      'none: ',
    ]);
  });

  test('places are those of the text as written', async () => {
    const text = 'interface bus;\n logic a;\n modport m(\n  input a);\nendinterface\nmodule t; endmodule';
    const { table } = await first(text);
    const modport = table?.items[0];
    expect(modport?.kind === 'modport' && text.slice(modport.at.start, modport.at.end)).toBe('m(\n  input a)');
    expect(table?.name).toMatchObject({ start: 10, end: 13 });
  });

  test('a damaged line loses itself', async () => {
    const { table, said } = await first(
      'interface bus; logic a; assign a = ; logic b; modport m(input a; endinterface',
    );
    expect(said).toEqual(['unexpected ; @35', 'unexpected ; @63']);
    expect(table?.items.filter(({ kind }) => kind === 'variable')).toHaveLength(2);
  });

  test('one that the text never closes is said by its own word', async () => {
    expect((await first('interface bus; logic a;')).said).toEqual(['unclosed interface,endinterface @0']);
  });

  test('a clocking block in a modport is said', async () => {
    const { said } = await first('interface bus; logic a; modport m(clocking cb, input a); endinterface');
    expect(said).toEqual(['construct clocking block in a modport @43']);
  });
});

describe('packages', () => {
  test('parameters, functions, imports and exports', async () => {
    const { table, said } = await first(`package p;
  import q::*; export q::A, r::*; export *::*;
  parameter N = 3; localparam M = N + 1;
  function [3:0] f; input [3:0] x; f = x; endfunction
endpackage : p`);
    expect(said).toEqual([]);
    const shown = (table?.items ?? []).map((item) =>
      item.kind === 'import' || item.kind === 'export'
        ? `${item.kind} ${item.from?.name ?? '*'}::${item.name?.name ?? '*'}`
        : item.kind,
    );
    expect(shown).toEqual([
      'export q::A',
      'export r::*',
      'export *::*',
      'import q::*',
      'parameter',
      'parameter',
      'subroutine',
    ]);
  });

  test('names, functions and tasks by their package', async () => {
    const { table, said } = await first(
      'module m; assign a = p::K + p::f(1) + $unit::z; initial begin p::t; p::u(1); m[1].send(2); end endmodule',
    );
    expect(said).toEqual([]);
    const [, process] = table?.items ?? [];
    const block = process?.kind === 'process' && process.body.kind === 'block' ? process.body.body : [];
    expect(block.map((statement) => (statement.kind === 'call' ? statement.callee?.kind : ''))).toEqual([
      'scoped',
      'scoped',
      'member',
    ]);
  });
});

describe('outside every unit', () => {
  test('declarations are kept, the rest is said', async () => {
    const { table, said } = await first(
      'import p::*; parameter N = 3; wire x; function f; input a; f = a; endfunction',
    );
    expect(said).toEqual(['construct net declaration outside a module @30']);
    expect(table?.items.map(({ kind }) => kind)).toEqual(['import', 'parameter', 'subroutine']);
  });
});
