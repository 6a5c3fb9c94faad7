/** What can be done at a place, each with what is remembered of it. */
import { valueAfter } from '#engine/findings.ts';
import type { Question, Script, Step } from '#engine/script.ts';
import type { Move } from './graph.ts';
import { Memo } from './memo.ts';
import { type Space, said } from './space.ts';
import type { Act, Transition } from './transition.ts';

export interface Way {
  act: Act;
  passes: Memo<Transition>;
}

export interface Ways {
  /** Answers that lead to the same stand together: most questions of where and who do not tell them apart. */
  answers: { way: Way; moves: Extract<Move, { kind: 'answer' }>[] }[];
  alarms: ReadonlyMap<string, Alarm>;
  goOn: Way;
}

/** Words for an alarm. */
export interface Alarm {
  /** Into its questions. */
  enter: Way;
  /** Doubtful words, and no after all; null where the caution that they get matters to nobody. */
  doubt: Way | null;
}

export function waysAt(step: Step | undefined, { interrupts }: Script, space: Space): Ways {
  const alarms = Object.entries(interrupts).map(([interrupt, { about }]): [string, Alarm] => {
    const { caution } = about;
    const heard = space.place(said(caution)) !== undefined;
    const doubt = heard ? way({ kind: 'warn', interrupt, caution }) : null;
    return [interrupt, { enter: way({ kind: 'enter', interrupt }), doubt }];
  });
  const groups = step?.kind === 'ask' || step?.kind === 'try' ? alikeAnswers(step, space) : [];
  const answers = groups.map(group => ({
    way: way({ kind: 'answer', step: step as Question, answer: group[0]! }),
    moves: group.map(answer => ({ kind: 'answer' as const, answer })),
  }));
  return { answers, alarms: new Map(alarms), goOn: way({ kind: 'go-on' }) };
}

const way = (act: Act): Way => ({ act, passes: new Memo() });

/**
 * Of what somebody tried, each result stays alone: one may have started the drive. So does not being sure, which rules look at
 * where it leads to an end, also out of an alarm's questions.
 */
function alikeAnswers(step: Question, space: Space): string[][] {
  const finding = space.place(step.finding);
  const groups = new Map<string, string[]>();
  for (const [answer, then] of Object.entries(step.after)) {
    if (answer === 'skipped' && step.kind === 'ask' && !step.optional) continue;
    const code = finding === undefined ? 0 : space.code(finding, valueAfter(step, answer));
    const alone = step.kind === 'try' || answer === 'not-sure' ? answer : '';
    const key = JSON.stringify([code, alone, then.goes, then.raises, then.clears, then.sets]);
    groups.set(key, [...(groups.get(key) ?? []), answer]);
  }
  return [...groups.values()];
}
