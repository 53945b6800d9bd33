// What a construct is called where it is said that it is not read: the standard's own name of its production,
// or the word that people know it by.

/** "assignment_pattern" → "assignment pattern": the standard's own names of its productions, save where nobody knows them. */
export function wordsOf(kind: string): string {
  return commonWords.get(kind) ?? kind.replaceAll('_', ' ');
}

const commonWords: ReadonlyMap<string, string> = new Map([
  ['parameter_override', 'defparam'],
  ['blocking_assignment', 'repeat before an event inside an assignment'],
  ['function_declaration', 'function'],
  ['task_declaration', 'task'],
  ['type_declaration', 'typedef'],
]);
