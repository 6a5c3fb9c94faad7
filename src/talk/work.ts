/** Desk flows: a technician's own questions, and how the record of the work comes to the ticket. */

import { fold } from '#engine/fold.ts';
import { worded } from '#engine/placeholders.ts';
import { isDeskTopic } from '#engine/schema.ts';
import { LONGEST } from '#tickets/act.ts';
import { reference } from '#tickets/schema.ts';
import { add, type Draft } from './draft.ts';
import type { Begin } from './inbound.ts';
import { titleOf } from './knowledge.ts';
import { resumed } from './standing.ts';

/** Begins the desk flow, or goes on with the one that is open here. */
export function begin(draft: Draft, { topic, work }: Begin): void {
  const { state, knowledge, now } = draft;
  const flow = knowledge.flows[topic];
  if (flow === undefined) return;
  if (state.frames.length > 0 && state.outcome === null) return resumed(draft);
  add(draft, {
    kind: 'opened',
    at: now,
    words: work === null ? flow.script.title : `${flow.script.title}, ${reference(work.ticket)}`,
    symptom: topic,
    script: flow.hash,
    candidates: [],
    waiting: {},
    screen: null,
    ...(work === null ? {} : { work }),
  });
}

/** At the end of a desk flow everything that was found goes to its ticket, as notes of the length that a note may have. */
export function recordWork(draft: Draft): void {
  const { state, before, entries, knowledge, now } = draft;
  const opened = entries.findLast(entry => entry.kind === 'opened');
  if (!isDeskTopic(state.symptom) || state.outcome === null || before.conversation.outcome !== null) return;
  if (opened?.work === undefined) return;
  const { conversation } = opened.work;
  const { person } = before.conversation.address;
  const answers = state.answers.map(({ step, shown }) => `- ${wordingOf(draft, step)} ${shown}`);
  const figures = state.worked.flatMap(({ working, says }) => says.map(line => `${working}: ${line}`));
  const lines = [
    `${titleOf(knowledge, state.symptom)}: ${endOf(draft)}`,
    ...toldIn(draft),
    ...figures,
    ...answers,
  ];
  draft.after.push({ kind: 'say', text: `This is on ${reference(opened.work.ticket)} now.` });
  notesOf(lines).forEach((text, index) => {
    const identity = `work:${before.conversation.id}:${index}`;
    draft.relays.push({
      kind: 'relay',
      lane: `relay:${conversation}`,
      conversation,
      dueAt: now,
      inbound: {
        kind: 'desk',
        identity,
        at: now,
        conversation,
        by: person.name ?? person.id,
        action: { do: 'note', text },
      },
    });
  });
}

/** What the flow said on the way, such as where an array stands. */
const toldIn = ({ script, entries }: Draft): string[] =>
  fold(script, entries, 0).said.flatMap(({ kind, text }) =>
    kind === 'say' && !text.includes('From what you wrote') ? [text.replace(/\s+/g, ' ')] : [],
  );

const endOf = ({ state: { outcome } }: Draft): string =>
  outcome === null || outcome.how === 'left' ? 'stopped before the end' : (outcome.text ?? outcome.how);

function wordingOf({ script, state }: Draft, id: string): string {
  const step = script?.main.find(other => other.id === id);
  if (script === null || (step?.kind !== 'ask' && step?.kind !== 'try')) return id;
  return worded(script, state, step.text).replace(/\s+/g, ' ');
}

function notesOf(lines: string[]): string[] {
  const notes: string[] = [];
  for (const line of lines.map(each => each.slice(0, LONGEST))) {
    const last = notes.at(-1);
    if (last !== undefined && last.length + line.length < LONGEST)
      notes[notes.length - 1] = `${last}\n${line}`;
    else notes.push(line);
  }
  return notes;
}
