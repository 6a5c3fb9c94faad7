/** What tests do in a rehearsal. */
import type { Message } from '#engine/messages.ts';
import type { Inbound } from '#talk/inbound.ts';
import type { Rehearsal } from '#talk/rehearse.ts';

export const HOUR = 3_600_000;
export const texts = (messages: Message[]) =>
  messages.map(message => ('text' in message ? message.text : '')).join('\n');
export const kinds = (messages: Message[]) => messages.map(({ kind }) => kind);
export const last = (rehearsal: Rehearsal) => rehearsal.conversation().entries.at(-1);

/** Answers the open question with its answer `id`, else its last, else in words; until there is none. */
export function toTheEnd(rehearsal: Rehearsal, wanted: string[] = []): Message[] {
  const said: Message[] = [];
  for (let turn = 0; turn < 40 && rehearsal.question() !== null; turn++) {
    const { answers, step } = rehearsal.question()!;
    if (step === '@symptom') wanted = [answers[0]!.id];
    const id = answers.find(answer => wanted.includes(answer.id))?.id ?? answers.at(-1)?.id;
    said.push(...(id === undefined ? rehearsal.say('next to the window') : rehearsal.press(id)));
  }
  return said;
}

export const word = (
  rehearsal: Rehearsal,
  what: 'back' | 'again' | 'person' | 'stop',
  to?: number,
): Message[] =>
  rehearsal.take({
    kind: 'always',
    what,
    to,
    identity: `${what}:${rehearsal.now()}`,
    at: rehearsal.now(),
    address: rehearsal.conversation().address,
  });
export const inside = (rehearsal: Rehearsal, more: object): Message[] =>
  rehearsal.take({
    identity: `inside:${rehearsal.now()}:${JSON.stringify(more)}`,
    at: rehearsal.now(),
    conversation: rehearsal.conversation().id,
    ...more,
  } as Inbound);
