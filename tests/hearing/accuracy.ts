/** How well openings are told apart. */
import { hearOpening, type Opening, OTHER } from '#hearing/opening.ts';
import type { Openings } from './load.ts';
import type { Labelled } from './methods/corpus.ts';

export interface Accuracy {
  cases: number;
  /** Named first; named first or offered. */
  right: number;
  offered: number;
  sure: number;
  sureRight: number;
  /** Matters of storage, and how many of them were taken for somebody else's; surely so. */
  storage: number;
  away: number;
  awaySure: number;
  wrong: { symptom: string; text: string; heard: string; sure: boolean }[];
}

export type Answer = Pick<Opening, 'symptom' | 'sure' | 'candidates' | 'ranked'>;

export const accuracyOf = (prepared: Openings, cases: readonly Labelled[]): Accuracy =>
  accuracyBy(text => hearOpening(prepared, text), cases);

/** The same of any way to hear an opening. */
export function accuracyBy(hear: (text: string) => Answer, cases: readonly Labelled[]): Accuracy {
  const sum: Accuracy = {
    cases: 0,
    right: 0,
    offered: 0,
    sure: 0,
    sureRight: 0,
    storage: 0,
    away: 0,
    awaySure: 0,
    wrong: [],
  };
  for (const { text, symptom } of cases) {
    const heard = hear(text);
    const right = heard.symptom === symptom;
    const away = symptom !== OTHER && heard.symptom === OTHER;
    sum.cases++;
    if (right) sum.right++;
    if (right || heard.candidates.includes(symptom)) sum.offered++;
    if (heard.sure) sum.sure++;
    if (heard.sure && right) sum.sureRight++;
    if (symptom !== OTHER) sum.storage++;
    if (away) sum.away++;
    if (away && heard.sure) sum.awaySure++;
    const ranked = heard.ranked.slice(0, 3).map(one => `${one.symptom} ${one.score.toFixed(2)}`);
    if (!right) sum.wrong.push({ symptom, text, heard: ranked.join(', '), sure: heard.sure });
  }
  return sum;
}
