// A refusal: a sentence for the person who asked, about the asking and not about the design (a bad argument, a project
// file that says what it may not). Thrown here, caught at the edge, which prints it and stops.

export class Refusal extends Error {
  override readonly name = 'Refusal';
}

export function refuse(sentence: string): never {
  throw new Refusal(sentence);
}
