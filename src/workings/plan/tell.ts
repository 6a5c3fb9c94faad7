/** A bench plan in words. */
import type { Told } from '../working.ts';
import type { PlanInput, PlanOutput } from './index.ts';

const SAYS = {
  'at-once': 'The checks can begin.',
  'save-first': 'The data is saved first: the drive may be failing, and no other copy was seen.',
  'not-yet':
    'Not yet: the first step is a release by somebody who may give it; until then nothing but looking.',
} as const;

export function tell(output: PlanOutput, { faults }: PlanInput): Told {
  const { begin, steps, expectedMinutes, listedMinutes, held, heldBecause, sharesGiven } = output;
  return {
    says: [
      SAYS[begin],
      ...(expectedMinutes === null || listedMinutes === null
        ? ['No check that may be made now finds any of these faults.']
        : [
            `In this order the fault is found after ${minutes(expectedMinutes)} on average; in the order in which they were listed, after ${minutes(listedMinutes)}.`,
          ]),
      ...(held.length > 0
        ? [`Kept back: ${held.map(each => oneLine(each.check)).join('; ')}. ${heldBecause}`]
        : []),
    ],
    table: [
      ['', 'minutes', 'done after', 'found by then', 'looks for', 'check'],
      ...steps.map((each, place) => [
        `${place + 1}`,
        round(each.minutes),
        round(each.doneMinutes),
        `${(each.foundBy * 100).toFixed(0)}%`,
        oneLine(each.looksFor.join(', ')),
        oneLine(each.check),
      ]),
    ],
    limits: [
      sharesGiven
        ? 'Shares are those given, relative to their sum; the order is no better than they are.'
        : `No shares were given, so each of the ${faults.length} faults counts the same.`,
      'Exactly one of the faults is there, and each of its checks is equally likely to show it. Two faults at once, or one that is not listed, take longer.',
      'Look before touch: every check with a closed case comes before the first with an open one. Safety steps and their minutes are common practice.',
    ],
    ...(steps.some(({ open }) => open)
      ? { cautions: ['Some checks open the case: site rules and qualified people come first.'] }
      : {}),
  };
}

const minutes = (count: number): string => `${count.toFixed(1)} minutes`;
const round = (count: number): string => `${Number(count.toFixed(1))}`;
/** What people typed, without its line breaks, so that rows stay rows. */
const oneLine = (text: string): string => text.replace(/\s+/g, ' ');
