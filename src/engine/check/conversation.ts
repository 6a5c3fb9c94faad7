/** A counter-example as people would read it: the conversation itself, held with the real machine. */
import { openStep, type Saying } from '#engine/advance.ts';
import type { Catalogue } from '#engine/catalogue.ts';
import type { AnswerValue, Entry } from '#engine/entries.ts';
import { apply, shown } from '#engine/fold.ts';
import type { Question, Script } from '#engine/script.ts';
import { fresh, type State } from '#engine/state.ts';
import type { Edge, Exit, Move, Node } from './graph.ts';

export interface Turn {
  /** Cautions and other words before the question. */
  says: string[];
  /** The question and its step; null when the conversation is over. */
  asks: string | null;
  step: string | null;
  /** What the person did; null at the place that the counter-example is about. */
  answer: string | null;
}

export interface Conversation {
  /** Policies of site.yaml that it takes, by name. */
  policies: Record<string, string>;
  turns: Turn[];
}

interface Done {
  move: Move;
  given: Readonly<Record<string, string>>;
}

/** Everything that was done from the opening to the state, and then by `edge`. */
export function trailTo(node: Node | null, edge: Edge | null): Done[] {
  const before = node === null || node.near === null ? [] : trailTo(node.near.node, node.near.edge);
  return edge === null ? before : [...before, ...expand(edge)];
}

export const trailAlong = (edges: readonly Edge[]): Done[] => edges.flatMap(expand);

const expand = ({ move, given, through }: Edge): Done[] => [
  { move, given },
  ...(through === null ? [] : inside(through)),
];

/** An interrupt's questions; coming back at once, there are none. */
const inside = ({ edge, next }: Exit): Done[] => [
  ...(edge.move.kind === 'interrupt' && edge.through === null ? [] : expand(edge)),
  ...(next === null ? [] : inside(next)),
];

export function converse(script: Script, catalogue: Catalogue, trail: readonly Done[]): Conversation {
  const given = Object.assign({}, ...trail.map(done => done.given)) as Record<string, string>;
  const held: Script = { ...script, start: { ...script.start, ...given } };
  const state = fresh();
  const turns: Turn[] = [];
  let says: string[] = [];
  let number = 0;
  const tell = (entry: Entry) => {
    says.push(...apply(held, state, entry, number).map(words => (words as Saying).text));
    number += 1;
  };
  for (const { move } of trail) {
    const step = openStep(held, state);
    const { answer, entries } = heard(state, step, catalogue, move);
    if (move.kind !== 'start') turns.push({ says, asks: questionOf(step), step: step?.id ?? null, answer });
    says = [];
    entries(script).forEach(tell);
  }
  const last = openStep(held, state);
  turns.push({ says, asks: questionOf(last), step: last?.id ?? null, answer: null });
  const policies = Object.fromEntries(
    Object.entries(given).map(([name, value]) => [name.replace(/^policy\./, ''), value]),
  );
  return { policies, turns };
}

const questionOf = (step: Question | null): string | null =>
  step === null ? null : step.kind === 'try' ? `${step.text} ${step.works}` : step.text;

interface Heard {
  answer: string;
  entries(script: Script): Entry[];
}

function heard(state: State, step: Question | null, catalogue: Catalogue, move: Move): Heard {
  const question = state.number;
  const at = 0;
  switch (move.kind) {
    case 'start':
      return { answer: '', entries: ({ symptom }) => [opening(symptom)] };
    case 'answer': {
      if (step === null) return { answer: move.answer, entries: () => [] };
      const value = stands(step, move.answer);
      const words = shown(step, value);
      return {
        answer: words,
        entries: () => [{ kind: 'answer', at, question, step: step.id, value, words }],
      };
    }
    case 'interrupt':
    case 'doubt': {
      const { interrupt } = move;
      const about = catalogue.interrupts[interrupt];
      const sure = move.kind === 'interrupt';
      const words = (sure ? about?.sure[0] : about?.doubtful?.[0]) ?? interrupt;
      const word: Entry = { kind: 'interrupt', at, question, interrupt, sure, words };
      const no: Entry = { kind: 'answer', at, question, step: '@doubt', value: { id: 'no' }, words: 'no' };
      return {
        answer: sure ? `"${words}"` : `"${words}" - but no`,
        entries: () => (sure ? [word] : [word, no]),
      };
    }
    case 'end':
      return LEAVING[move.by];
  }
}

const opening = (symptom: string): Entry => ({
  kind: 'opened',
  at: 0,
  words: '',
  symptom,
  script: symptom,
  candidates: [],
  waiting: {},
  screen: null,
});

const LEAVING: Record<Extract<Move, { kind: 'end' }>['by'], Heard> = {
  person: {
    answer: '(asks for a person)',
    entries: () => [{ kind: 'always', at: 0, what: 'person', words: '' }],
  },
  stop: { answer: '(stops)', entries: () => [{ kind: 'always', at: 0, what: 'stop', words: '' }] },
  left: { answer: '(does not answer any more)', entries: () => [{ kind: 'timer', at: 0, what: 'left' }] },
  outage: {
    answer: '(says it is the known outage)',
    entries: () => [
      { kind: 'outage', at: 0, outage: 'outage', text: '' },
      { kind: 'answer', at: 0, question: 0, step: '@outage', value: { id: 'same' }, words: 'same' },
    ],
  },
};

/** A value that stands for the answer: any number or text is as good as another. */
export function stands(step: Question, answer: string): AnswerValue {
  if (step.answers.some(({ id }) => id === answer)) return { id: answer };
  if (answer === 'skipped') return { skipped: true };
  if (step.kind === 'ask' && step.form === 'number') return { number: step.minimum ?? 0 };
  return step.kind === 'ask' && step.form === 'photo' ? { photo: 'a photo' } : { text: 'some words' };
}
