/** A conversation as the terminal shows it, played from what the person types. */
import { render } from '#channels/terminal/render.ts';
import type { Knowledge } from '#talk/knowledge.ts';
import { rehearse } from '#talk/rehearse.ts';

const LOOK = { width: 80, colour: false };

/** Plays the typed lines as one conversation and draws it as the terminal does. */
export function recorded(known: Knowledge, typed: string[]): string {
  const rehearsal = rehearse(known);
  const turns = typed.map(line => {
    const pressed = rehearsal.question()?.answers.some(({ id }) => id === line);
    const messages = pressed ? rehearsal.press(line) : rehearsal.say(line);
    return `> ${line}\n\n${render(messages, LOOK)}\n`;
  });
  return turns.join('\n');
}

/** What was typed in a recorded conversation. */
export const typedIn = (block: string): string[] =>
  block.split('\n').flatMap(line => (line.startsWith('> ') ? [line.slice(2)] : []));
