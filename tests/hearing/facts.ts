/** How much of what an opening says beside its symptom is heard, and how much is assumed wrongly. */
import { hearWaiting } from '#hearing/waiting.ts';
import type { Library } from '#library/load.ts';
import { load } from './load.ts';

interface Case {
  symptom: string;
  says: string;
  facts: Record<string, string>;
  /** Findings that would be assumed wrongly, whatever their answer. */
  not?: string[];
}

export interface Heard {
  openings: number;
  /** Facts that are said; that are said and heard; that are heard, rightly or not. */
  said: number;
  right: number;
  heard: number;
  wrong: string[];
  missed: string[];
  /** Heard, and not listed yet: somebody should read whether they are right. */
  unread: string[];
}

export function factsHeard(library: Library): Heard {
  const sum: Heard = { openings: 0, said: 0, right: 0, heard: 0, wrong: [], missed: [], unread: [] };
  for (const { symptom, says, facts, not = [] } of load<Case[]>('facts.yaml')) {
    const { script } = library.flows[symptom]!;
    const waiting = hearWaiting(script, says);
    sum.openings++;
    // A flow that no longer asks for something cannot hear it.
    const asked = new Set(script.main.flatMap(step => (step.kind === 'ask' ? [step.finding] : [])));
    const said = Object.entries(facts).filter(([finding]) => asked.has(finding));
    sum.said += said.length;
    for (const [finding, answer] of said)
      if (waiting[finding] === undefined) sum.missed.push(`${symptom}, ${says}: ${finding} is ${answer}`);
    for (const [finding, { answer, words }] of Object.entries(waiting)) {
      const line = `${symptom}, ${says}: ${finding} is ${answer} ("${words}")`;
      if (facts[finding] === undefined && !not.includes(finding)) {
        sum.unread.push(line);
        continue;
      }
      sum.heard++;
      if (facts[finding] === answer) sum.right++;
      else sum.wrong.push(line);
    }
  }
  return sum;
}
