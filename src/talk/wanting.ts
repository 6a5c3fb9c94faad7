/** What an answer in words still lacks, and what belongs to it from before. Pure. */
import type { Question as Step } from '#engine/script.ts';
import { alarming } from './alarming.ts';
import type { Draft } from './draft.ts';

/** What an answer in words is asked for once more: a number to ring, or any words at all. Null: it will do, or it was asked for already. */
export function wanting(draft: Draft, step: Step, text: string): string | null {
  const asksNumber = step.fills.includes('contact.way');
  if (asksNumber && isNews(draft, text))
    return `**Out first, then write.** Raise the alarm, warn others, call ${draft.knowledge.site.emergency.number}.`;
  if (earlier(draft).length > 0) return null;
  if (asksNumber && !/\d{3}/.test(text.replace(/[\s()./-]/g, '')))
    return 'I have that. And on which number can you be reached? If there is none, say so.';
  return !asksNumber && /^[^\p{L}]{1,3}$/u.test(text.trim()) && isStory(step)
    ? 'I have that. In a few words, please; "no idea" is fine too.'
    : null;
}

/** A number is no story. */
const isStory = ({ fills }: Step): boolean =>
  fills.some(field => field.startsWith('history.') || field === 'drive.serial');

/** What was said to the open question before, where more was asked for. */
const earlier = ({ entries, state }: Draft): string[] =>
  entries.flatMap(entry =>
    entry.kind === 'missed' && !entry.asked && entry.question === state.number ? [entry.words] : [],
  );

export const withEarlier = (draft: Draft, step: Step, text: string): string =>
  step.kind === 'ask' && (step.fills.includes('contact.way') || isStory(step))
    ? [...earlier(draft), text].join('; ')
    : text;

/** More of a danger that is known already, and no place or number. */
const isNews = ({ knowledge, state }: Draft, text: string): boolean =>
  state.signs.includes('danger') && !/\d/.test(text) && alarming(knowledge, [], text).length > 0;
