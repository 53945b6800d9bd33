// The reserved words of Verilog (IEEE 1364-2005 annex B) and those that SystemVerilog adds (IEEE 1800-2017
// annex B). Written from the standards' lists.

export function isKeyword(word: string): boolean {
  return verilogWords.has(word) || addedWords.has(word);
}

/** A word that IEEE 1364-2005 leaves free for names and IEEE 1800 reserves. */
export function isAddedKeyword(word: string): boolean {
  return addedWords.has(word);
}

/** The version of a standard whose words `begin_keywords reserves. */
export interface KeywordSet {
  readonly name: string;
  /** Words of the newest set that this one leaves free for names. */
  readonly free: ReadonlySet<string>;
}

/** Null for a version that no standard names (IEEE 1364-2005 19.11, IEEE 1800-2017 22.14). */
export function keywordSetNamed(name: string): KeywordSet | null {
  return keywordSets.get(name) ?? null;
}

function words(list: string): ReadonlySet<string> {
  return new Set(list.trim().split(/\s+/));
}

const verilogWords = words(`
  always and assign automatic begin buf bufif0 bufif1 case casex casez cell cmos config deassign default defparam
  design disable edge else end endcase endconfig endfunction endgenerate endmodule endprimitive endspecify endtable
  endtask event for force forever fork function generate genvar highz0 highz1 if ifnone incdir include initial inout
  input instance integer join large liblist library localparam macromodule medium module nand negedge nmos nor
  noshowcancelled not notif0 notif1 or output parameter pmos posedge primitive pull0 pull1 pulldown pullup
  pulsestyle_onevent pulsestyle_ondetect rcmos real realtime reg release repeat rnmos rpmos rtran rtranif0 rtranif1
  scalared showcancelled signed small specify specparam strong0 strong1 supply0 supply1 table task time tran tranif0
  tranif1 tri tri0 tri1 triand trior trireg unsigned use uwire vectored wait wand weak0 weak1 while wire wor xnor xor`);

const addedWords = words(`
  accept_on alias always_comb always_ff always_latch assert assume before bind bins binsof bit break byte chandle
  checker class clocking const constraint context continue cover covergroup coverpoint cross dist do endchecker
  endclass endclocking endgroup endinterface endpackage endprogram endproperty endsequence enum eventually expect
  export extends extern final first_match foreach forkjoin global iff ignore_bins illegal_bins implements implies
  import inside int interconnect interface intersect join_any join_none let local logic longint matches modport
  nettype new nexttime null package packed priority program property protected pure rand randc randcase randsequence
  ref reject_on restrict return s_always s_eventually s_nexttime s_until s_until_with sequence shortint shortreal
  soft solve static string strong struct super sync_accept_on sync_reject_on tagged this throughout timeprecision
  timeunit type typedef union unique unique0 until until_with untyped var virtual void wait_order weak wildcard with
  within`);

/** From memory of the tables beside `begin_keywords in IEEE 1364-2005 19.11 and IEEE 1800-2017 22.14. */
const addedIn2001 = words(`
  automatic cell config design endconfig endgenerate generate genvar incdir include instance liblist library localparam
  noshowcancelled pulsestyle_ondetect pulsestyle_onevent showcancelled signed unsigned use`);
const configuration = words('cell config design endconfig incdir include instance liblist library use');
const addedIn2009 = words(`
  accept_on checker endchecker eventually global implies let nexttime reject_on restrict s_always s_eventually s_nexttime
  s_until s_until_with strong sync_accept_on sync_reject_on unique0 until until_with untyped weak`);
const addedIn2012 = words('implements interconnect nettype soft');

const keywordSets: ReadonlyMap<string, KeywordSet> = new Map(
  [
    set('1364-1995', [addedWords, addedIn2001, ['uwire']]),
    set('1364-2001', [addedWords, ['uwire']]),
    set('1364-2001-noconfig', [addedWords, configuration, ['uwire']]),
    set('1364-2005', [addedWords]),
    set('1800-2005', [addedIn2009, addedIn2012]),
    set('1800-2009', [addedIn2012]),
    set('1800-2012', []),
    set('1800-2017', []),
    set('1800-2023', []),
  ].map((each) => [each.name, each]),
);

function set(name: string, free: readonly Iterable<string>[]): KeywordSet {
  return { name, free: new Set(free.flatMap((list) => [...list])) };
}
