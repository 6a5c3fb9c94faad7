/** Conditions in plain words. */
import { isAll, isAny, isNot } from '#engine/condition.ts';
import { type Condition, SIGNS } from '#engine/schema.ts';

/** `{ noise: [ticking, beeping], suspect: "no" }` becomes "noise is ticking or beeping, and not suspect". */
export function inWords(when: Condition): string {
  if (isAll(when)) return joined(when.all.map(grouped), 'and');
  if (isAny(when)) return joined(when.any.map(grouped), 'or');
  if (isNot(when)) return `not (${inWords(when.not)})`;
  return joined(
    Object.entries(when as Record<string, string | string[]>).map(([finding, wanted]) =>
      about(finding, [wanted].flat()),
    ),
    'and',
  );
}

/** Names of a file as words: not-sure is "not sure". */
export const spoken = (name: string): string => name.replaceAll('-', ' ');

function about(finding: string, values: string[]): string {
  if ((SIGNS as readonly string[]).includes(finding) && values.length === 1) {
    return values[0] === 'yes' ? spoken(finding) : `not ${spoken(finding)}`;
  }
  const name = finding.startsWith('policy.') ? `policy ${spoken(finding.slice(7))}` : spoken(finding);
  return `${name} is ${joined(values.map(spoken), 'or')}`;
}

const grouped = (when: Condition): string => {
  const words = inWords(when);
  return / and | or |, /.test(words) ? `(${words})` : words;
};

function joined(parts: string[], word: 'and' | 'or'): string {
  if (parts.length < 2) return parts.join('');
  const comma = parts.some(part => part.includes(' is ')) ? ',' : '';
  return `${parts.slice(0, -1).join(', ')}${comma} ${word} ${parts.at(-1)}`;
}
