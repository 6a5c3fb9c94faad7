import { personOf, type To } from './inbound.ts';
import type { Look } from './look.ts';
import { wordsFor } from './words.ts';

/** `bot`: its application id. */
export function lookOf(
  { reference, locale, zone }: To,
  conversation: string,
  bot: string,
  now: number,
): Look {
  const alone = reference.kind === 'personal';
  return {
    words: wordsFor(locale),
    locale,
    zone,
    conversation,
    owner: alone ? null : personOf(reference),
    name: alone ? null : reference.user.name,
    bot,
    now,
  };
}
