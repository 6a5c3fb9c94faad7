/**
 * A second method for the quoting of commands: a command line taken apart by the rules that Microsoft publishes ("Parsing C++
 * command-line arguments", learn.microsoft.com), written from their text alone.
 */
export function argumentsOf(line: string): string[] {
  const found: string[] = [];
  let at = 0;
  while (at < line.length) {
    // Arguments are delimited by white space, which is either a space or a tab.
    if (line[at] === ' ' || line[at] === '\t') {
      at += 1;
      continue;
    }
    let argument = '';
    let quoted = false;
    while (at < line.length && (quoted || (line[at] !== ' ' && line[at] !== '\t'))) {
      let slashes = 0;
      while (line[at + slashes] === '\\') slashes += 1;
      if (line[at + slashes] === '"') {
        // Before a quotation mark every pair of backslashes is one; an odd one makes the mark literal.
        argument += '\\'.repeat(Math.floor(slashes / 2));
        if (slashes % 2 === 1) argument += '"';
        else quoted = !quoted;
        at += slashes + 1;
      } else if (slashes > 0) {
        argument += '\\'.repeat(slashes);
        at += slashes;
      } else {
        argument += line[at];
        at += 1;
      }
    }
    found.push(argument);
  }
  return found;
}

/** What cmd.exe takes for itself outside quotes, and a variable even inside. Common practice. */
export function readByCmd(line: string): boolean {
  let quoted = false;
  for (const character of line) {
    if (character === '"') quoted = !quoted;
    if (character === '%' || (!quoted && '&|<>()^@!'.includes(character))) return true;
  }
  return quoted;
}
