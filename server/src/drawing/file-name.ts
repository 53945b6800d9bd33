// A name that every file system takes, for what is saved of a design; a design may be called anything.

export function fileName(title: string): string {
  return title.replace(/[^\p{L}\p{N}_-]+/gu, '-').slice(0, 60) || 'timing';
}
