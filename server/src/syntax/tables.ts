// The tables that reading produces: what a unit says, in our own terms, with the place of every part.
// Plain data without the parser's tree. Nothing is resolved here: names are names, widths are expressions.
// Deep operator chains are left as deep tables; every walk over them is depth limited or iterative.

import type { UnitOffset } from '../text/place';

/** A stretch of a unit's expanded text, end exclusive. The unit itself is known from the table's owner. */
export interface At {
  readonly start: UnitOffset;
  readonly end: UnitOffset;
  /** Only in tables that stand in for those of another unit (`elaborate/foreign-tables.ts`): that unit's number. */
  readonly unit?: number;
}

export interface Named extends At {
  readonly name: string;
}

// ---------------------------------------------------------------- expressions

export type UnaryOperator = '+' | '-' | '!' | '~' | '&' | '~&' | '|' | '~|' | '^' | '~^';
export type BinaryOperator =
  | '+'
  | '-'
  | '*'
  | '/'
  | '%'
  | '**'
  | '=='
  | '!='
  | '==='
  | '!=='
  | '==?'
  | '!=?'
  | '<'
  | '<='
  | '>'
  | '>='
  | '&&'
  | '||'
  | '&'
  | '|'
  | '^'
  | '~^'
  | '<<'
  | '>>'
  | '<<<'
  | '>>>';

export type Expression =
  /** 8'shf: size 8, signed, base h, digits "f" (lower case, without `_`, `?` as z). 12: size null, base d, signed. */
  | {
      readonly kind: 'number';
      readonly at: At;
      readonly size: number | null;
      readonly signed: boolean;
      readonly base: 'b' | 'o' | 'd' | 'h';
      readonly digits: string;
    }
  /** '0 '1 'x 'z */
  | { readonly kind: 'fill'; readonly at: At; readonly digit: '0' | '1' | 'x' | 'z' }
  | { readonly kind: 'real'; readonly at: At; readonly value: number }
  /** 10ns in a delay or time literal */
  | {
      readonly kind: 'time';
      readonly at: At;
      readonly value: number;
      readonly unit: 's' | 'ms' | 'us' | 'ns' | 'ps' | 'fs';
    }
  | { readonly kind: 'string'; readonly at: At; readonly text: string }
  /** Escaped identifiers keep their backslash and one closing space, as the report prints them. */
  | { readonly kind: 'name'; readonly at: At; readonly name: string }
  /** base.name: a hierarchical name or a member */
  | { readonly kind: 'member'; readonly at: At; readonly base: Expression; readonly name: Named }
  /** pack::name */
  | { readonly kind: 'scoped'; readonly at: At; readonly scope: Named; readonly name: Named }
  | { readonly kind: 'index'; readonly at: At; readonly base: Expression; readonly index: Expression }
  /** [left:right] (fixed), [left +: right] (up), [left -: right] (down) */
  | {
      readonly kind: 'range';
      readonly at: At;
      readonly base: Expression;
      readonly mode: 'fixed' | 'up' | 'down';
      readonly left: Expression;
      readonly right: Expression;
    }
  | { readonly kind: 'unary'; readonly at: At; readonly operator: UnaryOperator; readonly operand: Expression }
  | {
      readonly kind: 'binary';
      readonly at: At;
      readonly operator: BinaryOperator;
      readonly left: Expression;
      readonly right: Expression;
    }
  | {
      readonly kind: 'conditional';
      readonly at: At;
      readonly condition: Expression;
      readonly then: Expression;
      readonly else: Expression;
    }
  | { readonly kind: 'concat'; readonly at: At; readonly parts: readonly Expression[] }
  | { readonly kind: 'replicate'; readonly at: At; readonly count: Expression; readonly parts: readonly Expression[] }
  /** '{…} (IEEE 1800-2017 10.9), `count` of '{count{…}}; `type`: a type's name before it, or a keyword as a name. */
  | {
      readonly kind: 'pattern';
      readonly at: At;
      readonly type: Expression | null;
      readonly count: Expression | null;
      readonly entries: readonly PatternEntry[];
    }
  /** {<<size{…}} and {>>{…}} (IEEE 1800-2017 11.4.14); `size` null: 1. */
  | {
      readonly kind: 'stream';
      readonly at: At;
      readonly reversed: boolean;
      readonly size: Expression | null;
      readonly parts: readonly Expression[];
    }
  /** f(x) or $signed(x); name includes the dollar sign */
  | {
      readonly kind: 'call';
      readonly at: At;
      readonly name: Named;
      readonly args: readonly Expression[];
      /** pack::f or u.f, whole; `name` is then as written. Absent where a plain name is called. */
      readonly callee?: Callee;
    }
  | {
      readonly kind: 'mintypmax';
      readonly at: At;
      readonly min: Expression;
      readonly typ: Expression;
      readonly max: Expression;
    }
  /** What could not be read; a complaint stands beside the tables. */
  | { readonly kind: 'hole'; readonly at: At };

/** One part of a pattern: by position (`key` null), for a member or an index, or for all that is left. */
export interface PatternEntry {
  readonly key: Expression | 'default' | null;
  readonly value: Expression;
}

export type Callee = Extract<Expression, { kind: 'member' | 'scoped' }>;

export interface Range {
  readonly at: At;
  readonly msb: Expression;
  readonly lsb: Expression;
}

/** #(…): one, two (rise, fall) or three (rise, fall, to-z) expressions, each possibly min:typ:max. */
export interface DelayTable {
  readonly at: At;
  readonly values: readonly Expression[];
}

// ---------------------------------------------------------------- statements

export interface Sensitivity {
  readonly at: At;
  readonly edge: 'posedge' | 'negedge' | 'edge' | null;
  readonly expression: Expression;
}

/** @(…): `implicit` is @* or @(*). */
export interface EventControl {
  readonly at: At;
  readonly implicit: boolean;
  readonly items: readonly Sensitivity[];
}

export interface CaseItem {
  readonly at: At;
  /** Empty for default. */
  readonly labels: readonly Expression[];
  readonly isDefault: boolean;
  readonly body: Statement;
}

export type Statement =
  | {
      readonly kind: 'block';
      readonly at: At;
      readonly label: Named | null;
      readonly parallel: boolean;
      readonly declarations: readonly Item[];
      readonly body: readonly Statement[];
    }
  /** delay: `a = #3 b` (intra-assignment); event: `a = @(posedge c) b`. */
  | {
      readonly kind: 'assign';
      readonly at: At;
      readonly blocking: boolean;
      readonly target: Expression;
      readonly value: Expression;
      readonly delay: DelayTable | null;
      readonly event: EventControl | null;
    }
  | {
      readonly kind: 'if';
      readonly at: At;
      readonly condition: Expression;
      readonly then: Statement;
      readonly else: Statement | null;
    }
  | {
      readonly kind: 'case';
      readonly at: At;
      readonly match: 'case' | 'casez' | 'casex';
      readonly qualifier: 'unique' | 'unique0' | 'priority' | null;
      readonly selector: Expression;
      readonly items: readonly CaseItem[];
    }
  /** `declares` when the loop declares its own variable: for (integer i = 0; …) */
  | {
      readonly kind: 'for';
      readonly at: At;
      readonly declares: boolean;
      readonly variable: Expression;
      readonly start: Expression;
      readonly condition: Expression;
      readonly step: Statement;
      readonly body: Statement;
    }
  | { readonly kind: 'while'; readonly at: At; readonly condition: Expression; readonly body: Statement }
  | { readonly kind: 'repeat'; readonly at: At; readonly count: Expression; readonly body: Statement }
  | { readonly kind: 'forever'; readonly at: At; readonly body: Statement }
  | { readonly kind: 'delay'; readonly at: At; readonly delay: DelayTable; readonly body: Statement | null }
  | { readonly kind: 'event'; readonly at: At; readonly control: EventControl; readonly body: Statement | null }
  | { readonly kind: 'wait'; readonly at: At; readonly condition: Expression; readonly body: Statement | null }
  /** A task or system task used as a statement ($display, $finish, my_task). */
  | {
      readonly kind: 'call';
      readonly at: At;
      readonly name: Named;
      readonly args: readonly Expression[];
      readonly callee?: Callee;
    }
  | { readonly kind: 'disable'; readonly at: At; readonly label: Named }
  | { readonly kind: 'null'; readonly at: At }
  /** Recognised but not read, or broken; the complaint stands beside the tables. Its targets count as unknown. */
  | {
      readonly kind: 'hole';
      readonly at: At;
      /** Names the statement may have assigned, as far as they can be told. */
      readonly names: readonly Named[];
    };

// ---------------------------------------------------------------- items

export type NetType =
  | 'wire'
  | 'tri'
  | 'wand'
  | 'triand'
  | 'wor'
  | 'trior'
  | 'tri0'
  | 'tri1'
  | 'supply0'
  | 'supply1'
  | 'uwire'
  | 'trireg';
export type VariableType =
  | 'reg'
  | 'logic'
  | 'bit'
  | 'integer'
  | 'int'
  | 'time'
  | 'byte'
  | 'shortint'
  | 'longint'
  | 'real'
  | 'genvar';
export type Direction = 'input' | 'output' | 'inout';

export interface Declarator {
  readonly at: At;
  readonly name: Named;
  /** Unpacked dimensions, outermost first; [n] is given as [0:n-1] with `size`. */
  readonly dimensions: readonly Range[];
  readonly value: Expression | null;
}

/** Data type as written: packed ranges outermost first. */
export interface TypeTable {
  readonly signed: boolean;
  readonly ranges: readonly Range[];
  /** A type's name where a keyword could stand. */
  readonly named?: TypeName;
  /** A structure, a union or an enumeration that is written out where a keyword could stand. */
  readonly inline?: CompositeTable | EnumTable;
}

/** IEEE 1800-2017 7.2, 7.3. */
export interface CompositeTable {
  readonly kind: 'composite';
  readonly at: At;
  readonly what: 'struct' | 'union';
  readonly packed: boolean;
  /** The first one is the most significant. */
  readonly members: readonly MemberTable[];
}

export interface MemberTable extends At {
  readonly name: Named;
  readonly variable: VariableType | null;
  readonly type: TypeTable;
  /** Unpacked dimensions. */
  readonly dimensions: readonly Range[];
}

/** name, or pack::name */
export interface TypeName extends At {
  readonly scope: Named | null;
  readonly name: Named;
}

/** A whole data type; `variable` null where a range, a sign or a type's name stands alone. */
export type DataTypeTable =
  | {
      readonly kind: 'plain';
      readonly at: At;
      readonly variable: VariableType | null;
      readonly type: TypeTable;
      /** Of a typedef: its unpacked dimensions, outermost first. */
      readonly dimensions?: readonly Range[];
    }
  | EnumTable;

export interface EnumTable {
  readonly kind: 'enum';
  readonly at: At;
  /** Null: int. */
  readonly base: { readonly variable: VariableType | null; readonly type: TypeTable } | null;
  readonly members: readonly EnumMember[];
}

export interface EnumMember extends At {
  readonly name: Named;
  /** name[n] and name[a:b] stand for several names; null for one. */
  readonly range: Range | null;
  readonly value: Expression | null;
}

export interface PortTable {
  readonly at: At;
  readonly direction: Direction;
  /** Net or variable type as written; null where none is written. */
  readonly net: NetType | null;
  readonly variable: VariableType | null;
  readonly type: TypeTable;
  readonly declarator: Declarator;
  /** Set where an interface stands in place of direction and type: `bus.master p`, `interface p`. */
  readonly interface?: InterfaceReference;
}

export interface InterfaceReference extends At {
  /** Null for `interface`, which any may be connected to. */
  readonly name: Named | null;
  readonly modport: Named | null;
}

/** A name in a port list. `expression` null: an empty port. `external` set for .name(expression). */
export interface PortSlot {
  readonly at: At;
  readonly external: Named | null;
  readonly expression: Expression | null;
}

export interface Connection {
  readonly at: At;
  /** null: by order. */
  readonly name: Named | null;
  /** null: left open. */
  readonly value: Expression | null;
  /** Of a parameter: a type that no expression could be. */
  readonly type?: DataTypeTable;
  /** `.name` alone (implied expression) or `.*`. */
  readonly implied: 'none' | 'name' | 'all';
}

export type GateType =
  | 'and'
  | 'nand'
  | 'or'
  | 'nor'
  | 'xor'
  | 'xnor'
  | 'buf'
  | 'not'
  | 'bufif0'
  | 'bufif1'
  | 'notif0'
  | 'notif1'
  | 'pullup'
  | 'pulldown';

export interface InstanceTable {
  readonly at: At;
  readonly name: Named | null;
  readonly range: Range | null;
  readonly connections: readonly Connection[];
}

export interface GenerateCaseItem {
  readonly at: At;
  readonly labels: readonly Expression[];
  readonly isDefault: boolean;
  readonly body: GenerateBlock;
}

/** A generate block; `label` null where unnamed (the elaborator numbers it, IEEE 1364-2005 12.4.3). */
export interface GenerateBlock {
  readonly at: At;
  readonly label: Named | null;
  readonly items: readonly Item[];
  /** Whether begin/end was written. */
  readonly delimited: boolean;
}

export type ProcessFlavor = 'always' | 'always_ff' | 'always_comb' | 'always_latch' | 'initial' | 'final';

export type Item =
  | {
      readonly kind: 'net';
      readonly at: At;
      readonly net: NetType;
      readonly type: TypeTable;
      readonly delay: DelayTable | null;
      readonly declarators: readonly Declarator[];
    }
  | {
      readonly kind: 'variable';
      readonly at: At;
      readonly variable: VariableType;
      readonly type: TypeTable;
      readonly declarators: readonly Declarator[];
    }
  | {
      readonly kind: 'parameter';
      readonly at: At;
      readonly local: boolean;
      readonly variable: VariableType | null;
      readonly type: TypeTable;
      readonly declarators: readonly Declarator[];
    }
  /** Port declaration in the body of a module with a non-ANSI header. */
  | { readonly kind: 'port'; readonly at: At; readonly port: PortTable }
  | {
      readonly kind: 'assign';
      readonly at: At;
      readonly delay: DelayTable | null;
      readonly target: Expression;
      readonly value: Expression;
    }
  | {
      readonly kind: 'gate';
      readonly at: At;
      readonly gate: GateType;
      readonly delay: DelayTable | null;
      readonly instances: readonly InstanceTable[];
    }
  | { readonly kind: 'process'; readonly at: At; readonly flavor: ProcessFlavor; readonly body: Statement }
  | SubroutineItem
  /** defparam a.b = value; `target`: a name with members and indices. */
  | { readonly kind: 'defparam'; readonly at: At; readonly target: Expression; readonly value: Expression }
  | {
      readonly kind: 'instances';
      readonly at: At;
      readonly module: Named;
      readonly parameters: readonly Connection[];
      readonly instances: readonly InstanceTable[];
    }
  | {
      readonly kind: 'generate-if';
      readonly at: At;
      readonly condition: Expression;
      readonly then: GenerateBlock | null;
      readonly else: GenerateBlock | null;
    }
  | {
      readonly kind: 'generate-for';
      readonly at: At;
      readonly variable: Named;
      readonly start: Expression;
      readonly condition: Expression;
      readonly step: Statement;
      readonly body: GenerateBlock;
    }
  | {
      readonly kind: 'generate-case';
      readonly at: At;
      readonly selector: Expression;
      readonly items: readonly GenerateCaseItem[];
    }
  | { readonly kind: 'generate-block'; readonly at: At; readonly block: GenerateBlock }
  /** `import` and, in a package, `export`: one item for each pack::name. */
  | ImportItem
  | ModportItem
  /** Null: a type that these tables cannot hold, which has been said; what is of it is unknown. */
  | { readonly kind: 'typedef'; readonly at: At; readonly name: Named; readonly type: DataTypeTable | null }
  /** parameter type T = … */
  | {
      readonly kind: 'type-parameter';
      readonly at: At;
      readonly local: boolean;
      readonly name: Named;
      readonly type: DataTypeTable | null;
    }
  | SpecifyItem
  | {
      readonly kind: 'hole';
      readonly at: At;
      /** Names the broken or unsupported item would have declared or driven, as far as they can be told. */
      readonly names: readonly Named[];
    };

/** specify … endspecify. Its specparams are parameters of the module, before this item. */
export interface SpecifyItem {
  readonly kind: 'specify';
  readonly at: At;
  readonly parts: readonly SpecifyPart[];
}

export type SpecifyPart =
  /** from => to (bit by bit) or from *> to (`full`): one to twelve delays. */
  | {
      readonly kind: 'path';
      readonly at: At;
      readonly guard: 'none' | 'if' | 'ifnone';
      readonly condition: Expression | null;
      readonly edge: 'posedge' | 'negedge' | 'edge' | null;
      readonly full: boolean;
      readonly from: readonly Expression[];
      readonly to: readonly Expression[];
      readonly delays: readonly Expression[];
    }
  /** $setup and its kin. An argument that is left out is null. */
  | {
      readonly kind: 'check';
      readonly at: At;
      /** Without the dollar sign. */
      readonly check: string;
      readonly args: readonly (CheckArgument | null)[];
    }
  /** PATHPULSE$ (both null: of the module) or PATHPULSE$from$to. */
  | {
      readonly kind: 'pulse-limits';
      readonly at: At;
      readonly from: string | null;
      readonly to: string | null;
      readonly limits: readonly Expression[];
    }
  | {
      readonly kind: 'pulse-style';
      readonly at: At;
      readonly style: 'onevent' | 'ondetect' | 'showcancelled' | 'noshowcancelled';
      readonly outputs: readonly Expression[];
    };

/** An event with its edge (`edges`: those of edge […], as written) and condition, or a plain expression. */
export interface CheckArgument {
  readonly at: At;
  readonly edge: 'posedge' | 'negedge' | 'edge' | null;
  readonly edges: readonly string[];
  readonly expression: Expression;
  /** Behind &&&. */
  readonly condition: Expression | null;
}

export interface ImportItem {
  readonly kind: 'import' | 'export';
  readonly at: At;
  /** Null for `export *::*`. */
  readonly from: Named | null;
  /** Null for `*`. */
  readonly name: Named | null;
}

export interface ModportItem {
  readonly kind: 'modport';
  readonly at: At;
  readonly name: Named;
  readonly members: readonly ModportMember[];
}

export interface ModportMember {
  readonly at: At;
  readonly name: Named;
  /** `import` and `export` name a function or task. */
  readonly role: Direction | 'import' | 'export';
  /** Of .name(expression); null where the interface's own signal of that name is meant. */
  readonly expression: Expression | null;
}

/** A function, or a task where `result` is null. Its ports are in order, whichever of the two forms declares them. */
export interface SubroutineItem {
  readonly kind: 'subroutine';
  readonly at: At;
  readonly name: Named;
  readonly automatic: boolean;
  /** Type of a function's result; `variable` null where only a range, a sign or nothing is written. */
  readonly result: { readonly variable: VariableType | null; readonly type: TypeTable } | null;
  readonly ports: readonly PortTable[];
  readonly declarations: readonly Item[];
  readonly body: Statement;
}

export interface ModuleTable {
  readonly kind: 'module';
  readonly at: At;
  readonly name: Named;
  /** From the header #(…): parameters in order. */
  readonly parameters: readonly Item[];
  /** ANSI header: ports in order. Non-ANSI: empty, `slots` filled and port items in the body. */
  readonly ports: readonly PortTable[];
  readonly slots: readonly PortSlot[];
  readonly ansi: boolean;
  /** False where the header is too damaged to tell its parameters and ports: those listed are not all. */
  readonly headerWhole: boolean;
  readonly items: readonly Item[];
  readonly celldefine: boolean;
  /** From `timescale, in ps; null where no directive was in force (then 1 ns and 1 ns are assumed). */
  readonly timeUnit: number | null;
  readonly timePrecision: number | null;
  readonly defaultNet: NetType | 'none';
}

/** A design unit that is no module: its name, so that uses of it are known, and what it holds, where that is read. */
export interface OtherUnitTable {
  readonly kind: 'other';
  readonly at: At;
  readonly what: 'interface' | 'package' | 'program' | 'class' | 'primitive' | 'loose';
  readonly name: Named | null;
  /**
   * The hardware of a primitive, or the ports, parameters and items of an interface, a package or loose text, as a
   * module has them; null where the unit is known by name only.
   */
  readonly describes: ModuleTable | null;
}

/** One slice of a file, read. */
export type UnitTable = ModuleTable | OtherUnitTable;
