/** The last words of a conversation that needs no hand-over. */
import type { Outcome } from '#engine/entries.ts';
import type { Ending } from '#engine/messages.ts';
import { isDeskTopic } from '#engine/schema.ts';
import type { Draft } from './draft.ts';

export function endingOf({ knowledge, state }: Draft, outcome: Outcome): Ending {
  const { site, catalogue } = knowledge;
  return { kind: 'ending', how: outcome.how, text: text() };

  function text(): string {
    switch (outcome.how) {
      case 'fixed': {
        const fault = outcome.fault === null ? undefined : catalogue.faults[outcome.fault];
        if (isDeskTopic(state.symptom) && fault !== undefined)
          return `Solved: **${fault.name}**. Tell the person, and close their ticket with \`${outcome.fault}\`.`;
        const cause = fault === undefined ? '' : ` What it was: **${fault.name}**.`;
        const prevent = fault?.prevent === undefined || !fault.tell ? '' : ` ${fault.prevent}`;
        return `Good, then that is solved.${cause}${prevent} If it comes back, write here and say so.`;
      }
      case 'known-outage':
        return `You are counted in. ${site.desk.name} is on it, and I will write here when it is over. There is nothing for you to do.`;
      case 'not-storage':
        return `For everything else at ${site.organisation}:\n${site.elsewhere.map(({ about, where }) => `- ${about}: ${where}`).join('\n')}`;
      case 'left':
        return outcome.because === 'left'
          ? 'I have put this aside because I did not hear from you. Write here any time and we go on.'
          : 'All right, we stop here. Write any time and we go on where we were.';
      case 'done':
        return outcome.text ?? 'Done.';
      case 'escalated':
        if (isDeskTopic(state.symptom)) return onwards(outcome);
        return `${site.desk.name} takes over. You can reach the desk at ${site.desk.phone}.`;
    }
  }
}

const KEEP = { off: ' Keep it off.', on: ' Keep it on.', 'as-it-is': ' Leave it as it is.' } as const;

/** From the bench to somebody else: a specialist, the owner, the maker. */
const onwards = ({ text, keep }: Outcome): string =>
  `${text ?? 'This goes on to somebody else.'}${keep === null ? '' : KEEP[keep]}`;
