/** The conversations in README.md, as they really look: played again from what the person types in them. `npm run readme` writes them anew. */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { render } from '#channels/terminal/render.ts';
import { rehearse } from '#talk/rehearse.ts';
import { proven } from './knowledge.ts';

const BLOCK = /```text\n(> [\s\S]*?)```/g;
const LOOK = { width: 80, colour: false };

const known = proven();

/** Plays the typed lines as one conversation and draws it as the terminal does. */
export function recorded(typed: string[]): string {
  const rehearsal = rehearse(known);
  const turns = typed.map(line => {
    const pressed = rehearsal.question()?.answers.some(({ id }) => id === line);
    const messages = pressed ? rehearsal.press(line) : rehearsal.say(line);
    return `> ${line}\n\n${render(messages, LOOK)}\n`;
  });
  return turns.join('\n');
}

/** The page with every recorded conversation played anew. */
export function refreshed(page: string): string {
  return page.replace(BLOCK, (_, block: string) => {
    const typed = block.split('\n').flatMap(line => (line.startsWith('> ') ? [line.slice(2)] : []));
    return `\`\`\`text\n${recorded(typed)}\`\`\``;
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  writeFileSync('README.md', refreshed(readFileSync('README.md', 'utf8')));
}
