/** The page's words in the language the browser asks for. */
import { de } from './de.ts';
import { en } from './en.ts';
import { es } from './es.ts';
import { fr } from './fr.ts';

export type Words = typeof en;
export type PageError = keyof Words['errors'];

const LANGUAGES: Record<string, Words> = { en, de, fr, es };

/** `accept`: the header Accept-Language (RFC 9110, 12.5.4). English when it names none that we have. */
export function wordsFor(accept: string | undefined): Words {
  const wanted = (accept ?? '')
    .split(',')
    .map(range => {
      const [tag = '', ...parameters] = range
        .trim()
        .toLowerCase()
        .split(/\s*;\s*/);
      const quality = parameters.find(parameter => parameter.startsWith('q='));
      return { language: tag.split('-')[0]!, quality: quality === undefined ? 1 : Number(quality.slice(2)) };
    })
    .filter(({ language, quality }) => Object.hasOwn(LANGUAGES, language) && quality > 0)
    .sort((a, b) => b.quality - a.quality);
  return LANGUAGES[wanted[0]?.language ?? 'en'] ?? en;
}
