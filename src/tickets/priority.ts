/**
 * How soon, and why: impact and urgency first, raised by danger and by data at risk.
 * The lines are read from top to bottom; the first that holds decides. "Not sure" counts as the worse, but for one: who could
 * not say how many are held up has only spoken for a few where many share the thing, and for one where it is their own.
 */
import type { Priority, Ticket } from './schema.ts';

/** Everything the priority depends on. */
export interface PriorityInput {
  symptom: string | null;
  findings: Readonly<Record<string, string>>;
  /** What the report is about, when site.yaml marks it shared or time-critical: "the accounts folder". */
  thing: string | null;
  /** Does it need hands or rights that the person lacks? */
  needsDesk: boolean;
}

export interface Worked {
  priority: Priority;
  why: string;
  impact: Ticket['impact'];
  urgency: Ticket['urgency'];
}

/** The values of a finding from mild to grave. "Not sure" counts as the last. */
export const GRAVER: Readonly<Record<string, readonly string[]>> = {
  'impact-who': ['me', 'few', 'many'],
  'impact-work': ['fine', 'workaround', 'stopped'],
  deadline: ['no-hurry', 'this-week', 'today'],
  missed: ['nothing', 'something'],
  copy: ['seen', 'believed', 'nowhere'],
  power: ['off', 'on'],
  standing: ['healthy', 'degraded', 'no-margin', 'did-not-start', 'lost'],
};

interface Facts extends PriorityInput, Pick<Worked, 'impact' | 'urgency'> {
  danger: boolean;
  attack: boolean;
  /** Is a device failing, or not cleared of it? */
  failing: boolean;
  /** Would something be missed that nobody has seen anywhere else? Never asked counts as yes. */
  onlyCopy: boolean;
  askedForCopy: boolean;
  askedForWork: boolean;
  running: boolean;
  /** Can they not work at all? Else the urgency comes from the deadline. */
  stopped: boolean;
  suspect: boolean;
  /** Of an array; null when there is none. */
  standing: string | null;
}

interface Line {
  priority: Priority;
  holds: (facts: Facts) => boolean;
  why: (facts: Facts) => string;
}

const LINES: readonly Line[] = [
  {
    priority: 'critical',
    holds: ({ danger }) => danger,
    why: () => 'Somebody may be in danger.',
  },
  {
    priority: 'critical',
    holds: ({ attack }) => attack,
    why: () => 'It may be an attack.',
  },
  {
    priority: 'critical',
    holds: ({ impact, urgency }) => impact === 'many' && urgency === 'high',
    why: ({ stopped, findings }) => {
      if (findings['impact-who'] === 'not-sure')
        return 'Nobody could say how many are held up, and many may depend on it.';
      return stopped ? 'Many people cannot work.' : 'Many people are held up, and it is needed today.';
    },
  },
  {
    priority: 'critical',
    holds: ({ thing }) => thing !== null,
    why: ({ thing }) => `It is about ${thing}, which many depend on or which cannot wait.`,
  },
  {
    priority: 'critical',
    holds: ({ failing, onlyCopy, running }) => failing && onlyCopy && running,
    why: () => 'The only copy of something needed is on a device that may be failing and is still running.',
  },
  {
    priority: 'critical',
    holds: ({ standing }) => standing === 'lost' || standing === 'did-not-start',
    why: ({ standing }) =>
      standing === 'lost' ? 'A drive array is lost, or may be.' : 'A drive array did not start.',
  },
  {
    priority: 'critical',
    holds: ({ standing, suspect, onlyCopy }) => standing === 'no-margin' && (suspect || onlyCopy),
    why: ({ suspect }) =>
      `A drive array survives no further failure, and ${suspect ? 'a second drive is suspect' : 'no recent backup has been seen'}.`,
  },
  {
    priority: 'high',
    holds: ({ urgency }) => urgency === 'high',
    why: ({ impact, stopped }) =>
      impact === 'few'
        ? `A few people ${stopped ? 'cannot work and have no way around it.' : 'are held up, and it is needed today.'}`
        : `Somebody ${stopped ? 'cannot work and has no way around it.' : 'is held up, and it is needed today.'}`,
  },
  {
    priority: 'high',
    holds: ({ failing, onlyCopy }) => failing && onlyCopy,
    why: () => 'The only copy of something needed is on a device that may be failing; it is safely off.',
  },
  {
    priority: 'high',
    holds: ({ failing }) => failing,
    why: () => 'A device may be failing. What is on it has been seen elsewhere, or would not be missed.',
  },
  {
    priority: 'high',
    holds: ({ standing }) => standing === 'no-margin',
    why: () => 'A drive array survives no further failure; nothing is known against its other drives.',
  },
  {
    priority: 'medium',
    holds: ({ urgency }) => urgency === 'medium',
    why: ({ impact, findings }) =>
      graver(findings, 'impact-work') === 'workaround'
        ? `${impact === 'one' ? 'Somebody works' : 'People work'} on with difficulty.`
        : 'Work goes on, but it is needed today.',
  },
  {
    priority: 'medium',
    holds: ({ onlyCopy, askedForCopy }) => onlyCopy && askedForCopy,
    why: () => 'Something would be missed, and no other copy of it has been seen.',
  },
  {
    priority: 'medium',
    holds: ({ needsDesk }) => needsDesk,
    why: () => 'It needs hands or rights that the person does not have.',
  },
  {
    priority: 'medium',
    holds: ({ askedForWork }) => !askedForWork,
    why: () => 'Nobody could ask whether they can work.',
  },
  {
    priority: 'medium',
    holds: ({ standing }) => standing === 'degraded',
    why: () => 'A drive array runs with a drive missing and can still survive a failure.',
  },
  {
    priority: 'low',
    holds: () => true,
    why: () => 'Work goes on, and nothing is at risk.',
  },
];

export function priorityOf(input: PriorityInput): Worked {
  const facts = factsOf(input);
  const line = lineOf(facts);
  const surer = Object.fromEntries(
    Object.entries(input.findings).map(([finding, value]) => [
      finding,
      value === 'not-sure' ? (GRAVER[finding]?.[0] ?? value) : value,
    ]),
  );
  const mattered = lineOf(factsOf({ ...input, findings: surer })).priority !== line.priority;
  return {
    priority: line.priority,
    why: line.why(facts) + (mattered ? ' What nobody is sure of is taken as the worse.' : ''),
    impact: facts.impact,
    urgency: facts.urgency,
  };
}

const lineOf = (facts: Facts): Line => LINES.find(({ holds }) => holds(facts))!;

/** A finding's value with "not sure" taken as the worse; undefined when it was never settled. */
const graver = (findings: PriorityInput['findings'], finding: string): string | undefined =>
  findings[finding] === 'not-sure' ? GRAVER[finding]?.at(-1) : findings[finding];

/** Would something be missed that nobody has seen anywhere else? Only seen counts; never asked and not sure count as yes. */
export const onlyCopy = (findings: PriorityInput['findings']): boolean =>
  findings['only-copy'] === 'yes' || (findings.missed !== 'nothing' && findings.copy !== 'seen');

/** How many count as held up where nobody could say. Others who are held up report it too, and make an outage of it. */
function unsaid({ findings, symptom }: PriorityInput): string {
  if (findings.device === 'server' || symptom === 'raid-alarm') return 'many';
  return findings.device === 'share' || symptom?.startsWith('share-') ? 'few' : 'me';
}

function factsOf(input: PriorityInput): Facts {
  const { findings, symptom } = input;
  const value = (finding: string) => graver(findings, finding);
  const raised = (sign: string) => findings[sign] === 'yes';
  const who = findings['impact-who'] === 'not-sure' ? unsaid(input) : value('impact-who');
  // A machine that does not start is not one to work on, asked or not.
  const work = value('impact-work') ?? (symptom?.startsWith('boot-') ? 'stopped' : undefined);
  const level = work === 'stopped' ? 2 : work === 'workaround' ? 1 : 0;
  // An array in alarm whose standing nobody has worked out may have no margin left.
  const standing = value('standing') ?? (symptom === 'raid-alarm' ? 'no-margin' : null);
  return {
    ...input,
    danger: raised('danger'),
    attack: raised('attack'),
    // A failing member of an array is judged by where the array stands.
    failing: standing === null && ['mechanical', 'hardware-failure', 'suspect'].some(raised),
    onlyCopy: onlyCopy(findings),
    askedForCopy: raised('only-copy') || findings.copy !== undefined,
    askedForWork: work !== undefined,
    running: value('power') !== 'off',
    suspect: raised('suspect'),
    stopped: work === 'stopped',
    standing,
    impact: who === 'many' ? 'many' : who === 'few' ? 'few' : 'one',
    urgency: (['low', 'medium', 'high'] as const)[
      Math.min(2, level + (value('deadline') === 'today' ? 1 : 0))
    ]!,
  };
}
