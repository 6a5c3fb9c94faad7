/** Places in a flow's text that site.yaml fills, such as `{share.windows}`: a closed set, checked when the flow is read. */
import type { Site } from './catalogue.ts';
import { decided, readsOf } from './condition.ts';
import { choiceOf } from './near.ts';
import type { Condition } from './schema.ts';
import type { Question, Script } from './script.ts';
import { connectCommand, nameOf, removeCommand, type Share, serverOf, smbAddress } from './shares.ts';
import type { State } from './state.ts';

/** The finding of the question for the share. Conditions read it as `listed`, whichever of site.yaml's was chosen. */
export const SHARE = 'share';
export const LISTED = 'listed';

/** Shown as it is, to the letter: site.yaml lets no backtick into it. */
const code = (text: string): string => `\`${text}\``;

/** `otherwise`: when none of site.yaml's shares was chosen. Without it the step stands only where one was. */
const OF_SHARE: Readonly<Record<string, { of(share: Share): string; otherwise?: string }>> = {
  name: { of: nameOf, otherwise: 'the network drive' },
  owner: { of: ({ owner }) => owner, otherwise: 'its owner' },
  path: { of: ({ path }) => code(path) },
  server: { of: share => code(serverOf(share)), otherwise: 'its server' },
  windows: { of: share => code(connectCommand(share)) },
  remove: { of: share => code(removeCommand(share)) },
  address: { of: share => code(smbAddress(share)) },
};
/** What site.yaml says under `connecting`, where it does. */
const CONNECTING = ['script', 'wait', 'vpn'] as const;
/** What every site.yaml says. */
const OF_SITE: Readonly<Record<string, (site: Site) => string>> = {
  desk: ({ desk }) => desk.phone,
  security: ({ security }) => security.contact,
};

export const PLACEHOLDERS: readonly string[] = [
  ...Object.keys(OF_SHARE).map(name => `{share.${name}}`),
  ...[...CONNECTING, ...Object.keys(OF_SITE)].map(name => `{site.${name}}`),
];

/** Does the condition hold only where one of site.yaml's shares was chosen? */
export function demandsListed(when: Condition | null): boolean {
  const named = readsOf(when).flatMap(({ finding, values }) => (finding === SHARE ? values : []));
  return ['', ...named].every(value => value === LISTED || decided(when, { [SHARE]: value }) === false);
}

/** Words in braces: a misspelt one must not reach a person. A command may have braces of its own, with other things in them. */
const BRACES = /\{([\p{L}\p{N} ._-]*)\}/gu;

/** For words that nobody fills: buttons and cautions are the same for everybody. */
export const hasPlaceholder = (text: string): boolean => text.search(BRACES) >= 0;

export interface Filled {
  text: string;
  /** What is wrong with it, and what to do. */
  problems: { message: string; remedy: string }[];
  /** Its words depend on the share. */
  ofShare: boolean;
}

/** What is known beforehand is put in. `chosen`: the step stands only where one of site.yaml's shares was chosen. */
export function fillIn(text: string, site: Site, chosen: boolean): Filled {
  const problems: Filled['problems'] = [];
  let ofShare = false;
  const filled = text.replace(BRACES, whole => {
    const [kind, name = ''] = whole.slice(1, -1).split('.');
    const known = PLACEHOLDERS.includes(whole);
    if (!known) {
      problems.push({
        message: `there is nothing called ${whole} to put in`,
        remedy: choiceOf(whole, PLACEHOLDERS),
      });
      return whole;
    }
    if (kind === 'share') {
      ofShare = true;
      if (!chosen && OF_SHARE[name]?.otherwise === undefined) {
        problems.push({
          message: `${whole} is known only of a share that site.yaml lists`,
          remedy: `let the step stand only where { ${SHARE}: ${LISTED} }`,
        });
      }
      return whole;
    }
    const given = OF_SITE[name]?.(site) ?? site.connecting?.[name as (typeof CONNECTING)[number]];
    if (given !== undefined) return given;
    problems.push({
      message: `site.yaml does not say what ${whole} is`,
      remedy: `add connecting.${name} to site.yaml`,
    });
    return whole;
  });
  return { text: filled, problems, ofShare };
}

/** Every share's words, for the script: what it says never changes once a conversation has begun on it. */
export const shareWords = ({ shares = [] }: Site): NonNullable<Script['shares']> => ({
  otherwise: Object.fromEntries(
    Object.entries(OF_SHARE).flatMap(([name, { otherwise }]) => (otherwise ? [[name, otherwise]] : [])),
  ),
  listed: Object.fromEntries(
    shares.map(share => [
      share.id,
      Object.fromEntries(Object.entries(OF_SHARE).map(([name, { of }]) => [name, of(share)])),
    ]),
  ),
});

type Said = Pick<State, 'answers'>;

/** The answer to the question for the share: the id of one of site.yaml's, or another answer. */
export function chosenShare({ answers }: Said): string | null {
  const given = answers.findLast(({ finding }) => finding === SHARE)?.value;
  return given !== undefined && 'id' in given ? given.id : null;
}

/** A text as this person reads it. */
export function worded({ shares }: Script, state: Said, text: string): string {
  if (shares === undefined || !text.includes('{')) return text;
  const words = shares.listed[chosenShare(state) ?? ''] ?? shares.otherwise;
  return text.replace(BRACES, (whole, inner: string) => words[inner.slice(SHARE.length + 1)] ?? whole);
}

/** A question as this person reads it. */
export function wordedStep(script: Script, state: Said, step: Question): Question {
  if (script.shares === undefined) return step;
  const text = worded(script, state, step.text);
  const help = step.help && worded(script, state, step.help);
  return step.kind === 'try'
    ? { ...step, text, help, works: worded(script, state, step.works) }
    : { ...step, text, help };
}
