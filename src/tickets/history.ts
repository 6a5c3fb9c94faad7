/** What was asked and said, in order, with what was taken back. */
import type { Answered, Entry } from '#engine/entries.ts';
import { shown, standing } from '#engine/fold.ts';
import { wordedStep } from '#engine/placeholders.ts';
import type { Script } from '#engine/script.ts';
import type { State } from '#engine/state.ts';
import type { Ticket } from './schema.ts';
import { questionsOf } from './suspects.ts';

type Line = Ticket['answers'][number];

/** Standing questions in words. The desk's own are looked up. */
const STANDING: Readonly<Record<string, string>> = {
  '@outage': 'Is the known outage what you see?',
  '@returned': 'Is the earlier matter still what this is about?',
};
const STANDING_ANSWERS: Readonly<Record<string, string>> = {
  same: 'the same',
  different: 'mine is different',
  solved: 'it has solved itself',
  new: 'something else now',
};

export function historyOf(script: Script | null, entries: readonly Entry[], state: State): Line[] {
  const steps = new Map(
    script ? questionsOf(script).map(step => [step.id, wordedStep(script, state, step)]) : [],
  );
  const counts = new Set(standing(entries).map(({ index }) => index));
  const rejoined = heardAgain(entries);
  const open: string[] = [];
  const doubts: string[] = [];
  const lines = entries.flatMap((entry, index): { place: number; line: Line }[] => {
    if (entry.kind === 'desk-ask') open.push(`The desk asked: ${entry.text}`);
    if (entry.kind === 'interrupt' && !entry.sure) {
      doubts.push(script?.interrupts[entry.interrupt]?.about.doubt ?? entry.interrupt);
    }
    const line = rejoined.has(index) ? null : lineOf(entry, counts.has(index));
    if (line === null) return [];
    return [{ place: index, line: { ...line, at: entry.at, withdrawn: !counts.has(index) } }];
  });

  function lineOf(entry: Entry, stands: boolean): Omit<Line, 'at' | 'withdrawn'> | null {
    switch (entry.kind) {
      case 'answer':
        return answerLine(entry, stands);
      case 'interrupt':
        return told('@interrupt', 'Said in between', entry.words);
      case 'missed':
        return told('@missed', entry.asked ? 'Asked back' : 'Said, and not understood', entry.words);
      case 'note':
        return told('@note', 'Added afterwards', entry.words);
      default:
        return null;
    }
  }

  function answerLine(entry: Answered, stands: boolean): Omit<Line, 'at' | 'withdrawn'> {
    const { step: id, value, words } = entry;
    const step = steps.get(id);
    const answer = step ? shown(step, value) : plain(value);
    const question =
      step?.text ??
      (id === '@desk' ? (stands ? open.shift() : open[0]) : id === '@doubt' ? doubts.pop() : STANDING[id]) ??
      `(a question of an earlier script: ${id})`;
    return { step: id, question, answer, id: 'id' in value ? value.id : null, words };
  }

  // Answers taken from the opening have no entry of their own; they came up right behind the entry that led to them.
  for (const given of state.answers.filter(({ fromOpening }) => fromOpening)) {
    const place = given.question - 1;
    const line: Line = {
      step: given.step,
      question: steps.get(given.step)?.text ?? given.step,
      answer: given.shown,
      id: 'id' in given.value ? given.value.id : null,
      words: given.words,
      at: entries[place]?.at ?? 0,
      withdrawn: false,
    };
    lines.push({ place: place + 0.5, line });
  }
  return lines.toSorted((one, other) => one.place - other.place).map(({ line }) => line);
}

const told = (step: string, question: string, words: string): Omit<Line, 'at' | 'withdrawn'> => ({
  step,
  question,
  answer: words,
  id: null,
  words,
});

function plain(value: Answered['value']): string {
  if ('id' in value) return STANDING_ANSWERS[value.id] ?? value.id;
  if ('text' in value) return value.text;
  if ('number' in value) return String(value.number);
  return 'photo' in value ? 'photo' : 'skipped';
}

/** Entries whose words were heard again together with the next message; the person took nothing back. */
function heardAgain(entries: readonly Entry[]): Set<number> {
  const again = new Set<number>();
  entries.forEach((entry, at) => {
    if (entry.kind !== 'back' || entry.why !== 'joined') return;
    const left = new Set(standing(entries.slice(0, at + 1)).map(({ index }) => index));
    for (const { index } of standing(entries.slice(0, at))) if (!left.has(index)) again.add(index);
  });
  return again;
}
