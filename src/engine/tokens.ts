/** Exact things in a text that give an answer by themselves: error numbers that say where to go on, the paths of shares. */
import type { Catalogue, OsCode, Site } from './catalogue.ts';
import type { Problem } from './compile.ts';
import type { AskStep } from './schema.ts';
import type { Script } from './script.ts';

/** Error numbers, stop codes and start-up codes are counted apart from each other. */
export const codeToken = (kind: OsCode['kind'], code: number): string => `${kind}:${code}`;
export const pathToken = (path: string): string => `path:${path.toLowerCase()}`;
export const nameToken = (about: string): string =>
  `name:${about.toLowerCase().replace(/^(?:the|your|our) /, '')}`;
export const letterToken = (letter: string): string => `letter:${letter[0]!.toLowerCase()}`;

/** What this question takes its answers from; undefined where there is nothing. */
export function tokensOf(
  step: AskStep,
  answers: readonly string[],
  { osCodes }: Catalogue,
  site: Site,
): Record<string, string> | undefined {
  const finding = step.as ?? step.id;
  const codes = Object.values(osCodes).flatMap(({ kind, code, takes = {} }) => {
    const answer = takes[finding];
    return answer !== undefined && answers.includes(answer) ? [[codeToken(kind, code), answer]] : [];
  });
  const shares = step.answers_from === 'shares' ? (site.shares ?? []) : [];
  const lettered = shares.filter(
    ({ id, letter }) => letter && !shares.some(other => other.id !== id && other.letter === letter),
  );
  const all = [
    ...codes,
    ...shares.flatMap(({ path, about, id }) => [
      [pathToken(path), id],
      [nameToken(about), id],
    ]),
    // The same letter at two sites names neither.
    ...lettered.map(({ letter, id }) => [letterToken(letter!), id]),
    ...(shares.length === 0 ? [] : otherLetters(shares)),
  ];
  return all.length === 0 ? undefined : Object.fromEntries(all);
}

/** A letter that is on no share of the list is another share's. From E on: the ones before are a computer's own. */
const otherLetters = (shares: readonly { letter?: string | undefined }[]): [string, string][] => {
  const taken = shares.map(({ letter }) => letter && letterToken(letter));
  return [...'efghijklmnopqrstuvwxyz']
    .map(letterToken)
    .filter(token => !taken.includes(token))
    .map(token => [token, 'another']);
};

/** What a code takes is asked for somewhere: in its symptom's flow, or the one for network drives. Flows not written yet are none. */
export function checkTokens(scripts: Readonly<Record<string, Script>>, { osCodes }: Catalogue): Problem[] {
  return Object.entries(osCodes).flatMap(([id, { symptom, on_share, takes = {} }]) => {
    if (!((on_share ?? symptom) in scripts)) return [];
    const questions = Object.values(scripts).flatMap(({ main }) => main.filter(step => step.kind === 'ask'));
    return Object.entries(takes).flatMap(([finding, answer]): Problem[] => {
      const asked = questions.filter(step => step.finding === finding);
      const answers = [...new Set(asked.flatMap(step => step.answers.map(each => each.id)))];
      if (answers.includes(answer)) return [];
      return [
        {
          unit: 'catalogue/os-codes.yaml',
          path: [id, 'takes', finding],
          message:
            asked.length === 0 ? `no flow asks for "${finding}"` : `"${finding}" has no answer "${answer}"`,
          remedy: asked.length === 0 ? 'name the id of a question' : `use one of: ${answers.join(', ')}`,
        },
      ];
    });
  });
}
