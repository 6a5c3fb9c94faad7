/** How well the ear tells openings apart, over one table of them. */
import { hearOpening } from '#hearing/opening.ts';
import { load, type Openings } from './load.ts';

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

export function accuracyOf(prepared: Openings, file: string): Accuracy {
  const table = Object.entries(load<Record<string, string[]>>(file));
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
  for (const [symptom, texts] of table)
    for (const text of texts) {
      const heard = hearOpening(prepared, text);
      const right = heard.symptom === symptom;
      sum.cases++;
      if (right) sum.right++;
      if (right || heard.candidates.includes(symptom)) sum.offered++;
      if (heard.sure) sum.sure++;
      if (heard.sure && right) sum.sureRight++;
      if (symptom !== 'not-storage') sum.storage++;
      if (symptom !== 'not-storage' && heard.symptom === 'not-storage') sum.away++;
      if (symptom !== 'not-storage' && heard.symptom === 'not-storage' && heard.sure) sum.awaySure++;
      const ranked = heard.ranked.slice(0, 3).map(one => `${one.symptom} ${one.score.toFixed(2)}`);
      if (!right) sum.wrong.push({ symptom, text, heard: ranked.join(', '), sure: heard.sure });
    }
  return sum;
}
