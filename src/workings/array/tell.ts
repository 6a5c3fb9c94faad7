/** What an array's figures mean, in words, and the order of work. The order is common practice, no source. */
import type { Told } from '../working.ts';
import type { ArrayInput, ArrayOutput } from './index.ts';

type Facts = Omit<ArrayOutput, 'advice'>;

const NEVER =
  'No restart, import, clearing, forcing or new configuration: each of them can write over what is still there.';
const ORDER = 'Note which drive sits in which slot, by serial number, before anything is moved.';

export function advice(
  facts: Facts,
  { level, copy, failed, rebuilding, suspect, spares }: ArrayInput,
): string[] {
  const { standing, ifSuspectsFail, setsAssumed } = facts;
  const settle =
    copy === 'seen'
      ? 'A copy was seen elsewhere: see that it is of today.'
      : 'No copy was seen, so copying comes before the swap; a technician decides how long that may wait.';
  const pairs = setsAssumed
    ? ['Find out the real sets first: neighbours are only assumed, and the right sets decide what is left.']
    : [];
  if (standing === 'lost')
    return [
      'Stop here: leave every drive in its slot, switch nothing on or off again.',
      NEVER,
      ORDER,
      'Restore from a copy onto other drives; without one, a specialist for data recovery is asked before anybody tries.',
    ];
  if (standing === 'did-not-start')
    return [
      NEVER,
      ORDER,
      settle,
      'Find out why it did not start (power, cable, backplane, controller, a member out of step) by looking only.',
    ];
  if (standing === 'healthy')
    return level === '0'
      ? ['One failure loses everything: see that a copy exists, whatever the lights say.']
      : suspect.length > 0
        ? [settle, `Replace member ${suspect.join(', ')} while all others are well: identify its slot first.`]
        : ['Nothing to do. An array is no backup: see that a copy exists.'];
  const swap =
    rebuilding.length > 0
      ? 'A rebuild is running: leave it alone, pull nothing, and watch the others for errors.'
      : spares > 0
        ? 'A spare is there: see whether the rebuild onto it has begun, then replace the failed one as the new spare.'
        : `Identify the slot of ${failed.length === 0 ? 'the failed member' : `member ${failed.join(', ')}`} by its light and serial number, then replace it with one at least as large.`;
  return [
    ...pairs,
    settle,
    ...(ifSuspectsFail === 'lost'
      ? [
          `Member ${suspect.join(', ')} is suspect, and the array is lost with it: copy the most important data first, gently, before any rebuild.`,
        ]
      : []),
    swap,
    standing === 'no-margin'
      ? 'Until the rebuild is done: no restart, no check or scrub, no reseating, no updates.'
      : 'Until the rebuild is done: no check or scrub, no updates.',
  ];
}

const percent = (chance: number): string => {
  if (chance === 0) return 'never';
  if (chance === 1) return 'certainly';
  return chance < 0.0001 ? 'under 0.01%' : `${(chance * 100).toFixed(chance < 0.1 ? 2 : 1)}%`;
};

function nextOne({ fatalChance: [next = 1], fatalMembers }: ArrayOutput): string {
  if (next === 0) return 'No single failure next is fatal.';
  if (next === 1) return 'The next failure is fatal, whichever member it hits.';
  const named = fatalMembers.length > 0 && fatalMembers.length <= 24;
  const which = named ? ` (members ${fatalMembers.join(', ')})` : '';
  return `The next failure is fatal with a chance of ${percent(next)}${which}.`;
}

const years = (hours: number | null): string =>
  hours === null
    ? 'longer than a figure means anything'
    : `${Number((hours / 8760).toPrecision(3)).toLocaleString('en')} years`;

const SAYS = {
  healthy: 'Healthy: every member works.',
  degraded: 'Degraded, with margin left.',
  'no-margin': 'Degraded, without margin: another failure in the wrong place loses it.',
  lost: 'Lost: more members are down than it can bear.',
  'did-not-start':
    'It did not start. What its members still hold is untouched as long as nobody writes to them.',
} as const;

export function tell(
  output: ArrayOutput,
  { level, members, failedCount, unreadable, repairHours, suspect }: ArrayInput,
): Told {
  const {
    standing,
    ifSuspectsFail,
    surelySurvived,
    fatalChance,
    usableTB,
    rebuildHours,
    unreadableChance,
    unreadableCosts,
    meanHoursToLoss,
    setsAssumed,
    setsLost,
  } = output;
  const alive = standing !== 'lost';
  return {
    says: [
      `RAID ${level}, ${members} members${failedCount === undefined ? '' : `, ${failedCount} of them down, not known which`}. ${SAYS[standing]}`,
      ...(setsLost.length > 0
        ? [
            `Lost with it: everything on it. The set of members ${setsLost.map(set => set.join(', ')).join(' and of ')} is what broke.`,
          ]
        : []),
      ...(suspect.length > 0 && ifSuspectsFail !== standing
        ? [`If what is suspect fails too: ${ifSuspectsFail.replaceAll('-', ' ')}.`]
        : []),
      ...(alive ? [`It surely bears ${surelySurvived} more. ${nextOne(output)}`] : []),
      ...output.advice.map((line, place) => `${place + 1}. ${line}`),
    ],
    table: [
      ['', 'figure'],
      ...(alive
        ? fatalChance.map((chance, place) => [`${place + 1} more at once are fatal`, percent(chance)])
        : []),
      ...(usableTB === null ? [] : [['usable', `${Number(usableTB.toFixed(3))} TB`]]),
      ...(rebuildHours === null
        ? []
        : [['rebuilding one member, at best', `${rebuildHours.toFixed(1)} hours`]]),
      ...(unreadableChance === null
        ? []
        : [
            [
              'an unreadable sector meanwhile',
              `${percent(unreadableChance)}${unreadableCosts ? '' : ', which the second parity covers'}`,
            ],
          ]),
      ['mean time to data loss, when whole', years(meanHoursToLoss)],
    ],
    limits: [
      ...(setsAssumed ? ['Sets are assumed to be neighbours (1 and 2, 3 and 4 ...); they need not be.'] : []),
      `The unreadable-sector chance is a datasheet bound (${unreadable} a bit), no forecast; most drives do better, a bad one far worse.`,
      `Mean time to data loss is a model: one repair at a time, ${repairHours === undefined ? 'the rebuild and a day without a spare' : `${repairHours} hours`} each, failures independent. Field data show 2 to 1,500 times as many double failures (Elerath and Pecht 2009).`,
      'Rebuild hours are the best case: an array in use takes several times as long. An array is no backup.',
    ],
  };
}
