/** Pictures and files: on the ticket whenever they come, and an answer where one was asked for. */
import { openStep } from '#engine/advance.ts';
import type { AnswerValue } from '#engine/entries.ts';
import type { AskStep, Script, Step } from '#engine/script.ts';
import { redact } from '#hearing/redact.ts';
import type { NewOutgoing } from '#store/store.ts';
import { add, type Draft, notice } from './draft.ts';
import type { Lying } from './inbound.ts';
import { reading } from './photo.ts';
import { quote } from './quote.ts';
import { LONGEST_TEXT, toldWhereCut, withoutSecrets } from './secrets.ts';

interface Given {
  name: string;
  type: string;
  content: Uint8Array;
}

/** In a lane of its own: a slow file holds no words up. */
export function fetching({ before, now }: Draft, identity: string, file: Lying): NewOutgoing {
  const { id, chat, address } = before.conversation;
  const lane = `${address.channel}:files:${chat}`;
  const named = { ...file, name: redact(file.name).text };
  return {
    kind: 'fetch',
    lane,
    conversation: id,
    identity: `${identity}:${file.id}`,
    file: named,
    dueAt: now,
  };
}

export function attached(draft: Draft, given: Given, id: string): void {
  const text = given.type === 'text/plain' ? new TextDecoder().decode(given.content) : null;
  const kept = text === null ? null : withoutSecrets(draft, text);
  const content = kept === null ? given.content : new TextEncoder().encode(kept);
  const { type } = given;
  const name = redact(given.name).text;
  add(draft, { kind: 'attached', at: draft.now, id, name, type, bytes: content.byteLength });
  draft.file = { id, name, type, content };
  if (text === null) draft.relays.push(reading(draft, id));
  draft.askAgain = true;
  const { state, script, now } = draft;
  const step = state.standing.length > 0 || script === null ? null : openStep(script, state);
  const value = step?.kind !== 'ask' ? null : answerWith(script!, step, id, kept);
  if (value !== null && kept !== null) toldWhereCut(draft, kept);
  if (step !== null && value !== null) {
    add(draft, { kind: 'answer', at: now, question: state.number, step: step.id, value, words: name });
    return;
  }
  const what = text === null ? 'picture' : 'file';
  notice(draft, `I have kept the ${what} ${quote(name, 60)}; it goes on the ticket if there is one.`);
}

/** A picture answers a question for one; a file's text one whose answer a working reads, such as a drive's counters. */
function answerWith(script: Script, step: AskStep, id: string, text: string | null): AnswerValue | null {
  if (step.form === 'photo') return text === null ? { photo: id } : null;
  if (text === null || step.form !== 'text' || !isWorkedWith(script, step)) return null;
  const words = text.slice(0, LONGEST_TEXT).trim();
  return words === '' ? null : { text: words };
}

const isWorkedWith = ({ main, interrupts }: Script, { finding }: AskStep): boolean =>
  [main, ...Object.values(interrupts).map(({ steps }) => steps)].some(steps =>
    steps.some(step => takes(step, finding)),
  );

const takes = (step: Step, finding: string): boolean =>
  step.kind === 'work' &&
  Object.values(step.from).some(source => source.finding === finding && !source.list && source.as === null);
