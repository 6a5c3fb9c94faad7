/** What happened to a ticket, as a reply in the thread of its card. Pure. */
import { concerned, newsOf } from '#tickets/card.ts';
import type { LifeEntry } from '#tickets/schema.ts';
import type { Outgoing } from '../adapter.ts';
import { literally } from '../markdown.ts';
import { visible } from '../rich.ts';
import { cut } from './draw.ts';

/** Characters of all of it, each of which may take five; what is longer is in the details. */
const NEWS = 2000;

/**
 * `userOf`: whoever it is for hears of it, where Teams' name for them is known. `lead`: of which ticket it is, where there are no threads.
 */
export function newsMessage(
  fresh: readonly LifeEntry[],
  life: readonly LifeEntry[],
  userOf: (name: string) => string | null,
  lead: string,
): Outgoing {
  const names = new Set(fresh.flatMap(entry => concerned(entry, life) ?? []));
  const called = [...names].flatMap(name => {
    const id = userOf(name);
    return id === null ? [] : [{ id, name: name.replace(/[<>&]/g, ''), text: '' }];
  });
  const mentions = called.map(({ id, name }) => ({
    type: 'mention',
    text: `<at>${name}</at>`,
    mentioned: { id, name },
  }));
  const words = cut(`${lead}${fresh.map(newsOf).join('\n')}`, NEWS);
  return {
    type: 'message',
    textFormat: 'markdown',
    text: [...mentions.map(({ text }) => text), ...words.split('\n').map(literally)].join('\n\n'),
    summary: visible(cut(words, 200)),
    ...(mentions.length === 0 ? {} : { entities: mentions }),
  };
}
