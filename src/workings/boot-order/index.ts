/**
 * What a machine tries when it starts, what comes of each try, what starts or which message stands there, and the one change that
 * mends it.
 *
 * Of the start list, of what is attached and of what each medium holds nothing is guessed: what is not told is not there. Names
 * are compared as they are, paths without regard to capitals. Rules: UEFI Specification, chapter 3 "Boot Manager"; legacy start:
 * the first sector ends in 55 AA, one partition is active. Errors: two entries or two devices of one name, an entry that names
 * nothing to start from, secure start or a start-once entry where there is only legacy start.
 */
import { z } from 'zod';
import { Impossible, type Working } from '../working.ts';
import { ENDS, type EndName, endOf, SYMPTOMS } from './ends.ts';
import { type Machine, machine, modeOf, wantedOf } from './machine.ts';
import { CHANGES, mendOf } from './mend.ts';
import { tell } from './tell.ts';
import { type Tries, triesOf } from './tries.ts';

export const VERDICTS = [
  'starts',
  'starts-other',
  'no-device',
  'no-os',
  'read-error',
  'asks-key',
  'menu',
] as const;
export type Verdict = (typeof VERDICTS)[number];

const OF_SYMPTOM = {
  'boot-no-device': 'no-device',
  'boot-no-os': 'no-os',
  'boot-read-error': 'read-error',
  'boot-recovery-key': 'asks-key',
} as const satisfies Record<(typeof SYMPTOMS)[number], Verdict>;

const output = z.object({
  verdict: z.enum(VERDICTS),
  /** In the order in which they are tried, those that are passed over included. */
  tries: z.array(
    z.object({
      by: z.enum(['once', 'list', 'default']),
      entry: z.string().nullable(),
      device: z.string().nullable(),
      end: z.enum(Object.keys(ENDS) as [EndName, ...EndName[]]),
      goes: z.enum(['skipped', 'next', 'stops', 'starts']),
      ambiguous: z.boolean(),
    }),
  ),
  /** The device that starts, and the one that should. */
  started: z.string().nullable(),
  wanted: z.string().nullable(),
  /** What people report of the message; null when something starts. */
  symptom: z.enum(SYMPTOMS).nullable(),
  mend: z.object({ change: z.enum(CHANGES), target: z.string().nullable(), tried: z.boolean() }),
});
export type BootOrderOutput = z.infer<typeof output>;

function work(given: Machine): BootOrderOutput {
  refuse(given);
  const tries = triesOf(given);
  const wanted = wantedOf(given);
  const started = tries.last?.end === 'starts' ? tries.last.device : null;
  const symptom = symptomOf(tries);
  const verdict = (): Verdict => {
    if (tries.menu) return 'menu';
    if (symptom !== null) return OF_SYMPTOM[symptom];
    return started === wanted ? 'starts' : 'starts-other';
  };
  return {
    verdict: verdict(),
    tries: tries.tries.map(each => ({ ...each, goes: endOf(each.end).goes })),
    started,
    wanted,
    symptom,
    mend: mendOf(given),
  };
}

/** The firmware's menu and a list that is through are told in the same words: nothing to start from. */
function symptomOf({ last }: Tries): BootOrderOutput['symptom'] {
  if (last === null) return 'boot-no-device';
  return endOf(last.end).symptom ?? null;
}

function refuse(given: Machine): void {
  const { firmware, secureStart, bootNext, entries, devices } = given;
  if (firmware === 'legacy' && secureStart)
    throw new Impossible('secureStart', 'legacy start has none: give false, or another firmware');
  if (firmware === 'legacy' && bootNext !== undefined)
    throw new Impossible('bootNext', 'legacy start has no entry for once: leave it out');
  for (const [field, list] of [
    ['entries', entries],
    ['devices', devices],
  ] as const) {
    const twice = list.findIndex(({ name }, place) => list.findIndex(other => other.name === name) < place);
    if (twice !== -1)
      throw new Impossible(
        `${field}.${twice}.name`,
        `"${list[twice]!.name}" is there twice: give other names`,
      );
  }
  entries.forEach((entry, place) => {
    const { device, partition, file } = entry;
    if (modeOf(entry, given) === 'legacy' && device === undefined)
      throw new Impossible(`entries.${place}.device`, 'a legacy entry names a device');
    if (device === undefined && partition === undefined && file === undefined)
      throw new Impossible(`entries.${place}`, 'name what it starts: a device, a partition or a file');
  });
}

export const bootOrder: Working<Machine, BootOrderOutput> = {
  id: 'boot-order',
  title: 'what a machine tries when it starts, which message results, and what mends it',
  input: machine as z.ZodType<Machine>,
  output,
  example: {
    firmware: 'uefi',
    secureStart: true,
    entries: [
      { name: 'Boot0003', device: 'stick' },
      { name: 'Boot0000', device: 'drive', file: '\\EFI\\system\\loader.efi', active: false },
      { name: 'Boot0001', device: 'network' },
    ],
    devices: [
      { name: 'drive', kind: 'internal', loaders: ['\\EFI\\system\\loader.efi'] },
      { name: 'stick', kind: 'stick' },
      { name: 'network', kind: 'network' },
    ],
    encryption: 'on',
  },
  verdicts: VERDICTS,
  work,
  verdict: ({ verdict }) => verdict,
  tell,
};
