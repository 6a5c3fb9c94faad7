/** Questions whose answers are the organisation's own are turned into plain ones before they are compiled. */
import type { Site } from './catalogue.ts';
import { choiceOf } from './near.ts';
import { hasPlaceholder, LISTED, SHARE } from './placeholders.ts';
import type { AskStep } from './schema.ts';
import { nameOf, waysToSay } from './shares.ts';

type Complain = (at: (string | number)[], message: string, remedy: string) => void;

/** At none of the sites. */
export const ELSEWHERE = 'elsewhere';

/** Id and label of the answers to a question that takes the organisation's own sites. */
export const siteAnswers = (site: Site): [string, string][] => [
  ...Object.entries(site.sites).map(([id, { name }]): [string, string] => [id, name]),
  [ELSEWHERE, 'Somewhere else, or at home'],
];

export function fromSite(step: AskStep, site: Site, problem: Complain): AskStep {
  for (const [key, label] of Object.entries(step.answers ?? {}).filter(([, each]) => hasPlaceholder(each))) {
    problem(
      ['answers', key],
      `"${label}": nothing is put into the words of a button`,
      'put it into the question',
    );
  }
  switch (step.answers_from) {
    case 'sites':
      return { ...step, answers: Object.fromEntries(siteAnswers(site)), opening: sitesInOpening(site) };
    case 'shares':
      return fromShares(step, site, problem);
    default:
      return step;
  }
}

const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** "My PC in Tolmarsh", of a site named "Tolmarsh, warehouse". The name alone may be of a share, a server or a customer. */
const sitesInOpening = ({ sites }: Site): Record<string, string[]> =>
  Object.fromEntries(
    Object.entries(sites).map(([id, { name }]) => {
      const short = name.split(',')[0]!.trim();
      const said = `in at here:in hi:from hello:from writing:from calling:from`.split(' ');
      const before = said.map(words => `${words.replace(':', ' ')} ${short}`);
      return [id, [...before, `${short} here`, `${short} office`, `${short} site`]];
    }),
  );

const OTHERS = { another: 'Another one', 'not-sure': "I'm not sure" };
const HEARS_ANOTHER = ['another', 'other', 'none of these', 'a different one', 'not in the list'];

/** Flows know no share by name, so that any site.yaml keeps the proof: to conditions each of them is `listed`. */
function fromShares(step: AskStep, { shares = [] }: Site, problem: Complain): AskStep {
  const own = { ...step.answers, ...OTHERS, ...step.answers };
  if ((step.as ?? step.id) !== SHARE) {
    problem(['id'], 'texts could not name the share that is chosen here', `add as: ${SHARE}`);
  }
  for (const { id } of shares.filter(each => each.id in own || each.id === LISTED)) {
    problem(['answers', id], `"${id}" is an answer here and a share of site.yaml`, 'rename one of them');
  }
  const expand = <T>(given: Record<string, T> | undefined, part: string): Record<string, T> => {
    const expanded = Object.entries(given ?? {}).flatMap(([key, value]): [string, T][] => {
      if (key === LISTED) return shares.map(({ id }) => [id, value]);
      if (key in own) return [[key, value]];
      const known = [LISTED, ...Object.keys(own)];
      problem([part, key], `"${key}" is no answer of this step`, choiceOf(key, known));
      return [];
    });
    return Object.fromEntries(expanded);
  };
  const perShare = <T>(of: (share: (typeof shares)[number]) => T) =>
    Object.fromEntries(shares.map(share => [share.id, of(share)]));
  const { hears = {}, opening = {}, sets } = step;
  const settled = expand(sets, 'sets');
  return {
    ...step,
    answers: { ...perShare(share => capital(nameOf(share))), ...own },
    hears: {
      ...perShare(waysToSay),
      ...expand(hears, 'hears'),
      another: [...HEARS_ANOTHER, ...(hears.another ?? [])],
    },
    opening: expand(opening, 'opening'),
    raises: expand(step.raises, 'raises'),
    clears: expand(step.clears, 'clears'),
    evidence: expand(step.evidence, 'evidence'),
    goes: expand(step.goes, 'goes'),
    sets: { ...settled, ...perShare(({ id }) => ({ ...settled[id], [SHARE]: LISTED })) },
  };
}
