/** A person's own words inside one of our texts: short, on one line, and without the marks that our texts use. */
export function quote(words: string, most = 120): string {
  const line = words
    .replace(/\s+/g, ' ')
    .replace(/[*`[\]<>]/g, '')
    .trim();
  return `“${line.length > most ? `${line.slice(0, most - 1)}…` : line}”`;
}
