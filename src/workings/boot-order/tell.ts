/** A start in words: what happens, what to change, and with what care. */
import type { Told } from '../working.ts';
import { endOf } from './ends.ts';
import type { BootOrderOutput, Verdict } from './index.ts';
import { DEFAULT_FILE, type Machine } from './machine.ts';
import type { Change, Mend } from './mend.ts';

const STARTS: Record<Verdict, (output: BootOrderOutput) => string> = {
  starts: ({ started }) => `${named(started)} starts, as it should.`,
  'starts-other': ({ started, wanted }) =>
    `${named(started)} starts, and not ${named(wanted, 'a drive inside')}.`,
  'no-device': () => 'Nothing starts: the message is that there is no device to start from.',
  'no-os': () => 'Nothing starts: the message is that no operating system was found.',
  'read-error': () => 'Nothing starts: the message is that something could not be read.',
  'asks-key': () => 'It stops and asks for the recovery key.',
  menu: () => "Nothing starts by itself: the firmware's own menu is shown.",
};

const MODE: Record<string, string> = {
  uefi: 'UEFI',
  legacy: 'legacy',
  'uefi-with-legacy': 'UEFI with legacy support',
};

const CHANGE: Record<Change, (target: string) => string> = {
  none: () => 'Nothing needs changing.',
  'take-out': target => `Take out ${target}, and start once.`,
  'take-out-all': () => 'Take out every stick, card, disc, dock and outside drive, and start once.',
  'start-again': () => 'Start once more: the entry for once is used up, and the list counts again.',
  'enable-entry': target => `Switch the entry ${target} on.`,
  'put-first': target => `Put the entry ${target} first in the start order.`,
  'add-entry': target => `Add an entry for what ${target} holds, and put it first.`,
  'set-timeout': () => 'Set a time after which the start menu goes on by itself.',
  'switch-on': target => `Switch ${target}, or the port it is on, on in the firmware setup.`,
  'change-mode': target =>
    `Set the start mode to ${MODE[target]}: the drive was set up for it. See then that it is first.`,
  'secure-start-off': target =>
    `The loader of ${target} needs a signature that the firmware trusts. Secure start is switched off only where the site's rules allow it.`,
  'find-drive': target => `Find ${target}: the firmware does not see it. Plug, lead, slot, another port.`,
  'save-data': target =>
    `${target} cannot be read well: save its data before anything else, and do not start it to test.`,
  'find-key': () =>
    'Undo what was changed last, or find the key by its identifier. It never goes into a chat.',
  'mark-active': target =>
    `No partition of ${target} is active, and one has to be. That writes to the drive, so look first whether it is the right drive.`,
  'mend-loader': target =>
    `Nothing on ${target} starts: look from the rescue stick, without repair, whether loader and system are there, and whether it is the right drive.`,
};

/** Of the firmware's settings; a drive that is encrypted may ask for its key afterwards. */
const SETTINGS: readonly Change[] = [
  'enable-entry',
  'put-first',
  'add-entry',
  'set-timeout',
  'switch-on',
  'change-mode',
  'secure-start-off',
];
/** What is written on a drive may be the last thing that is. */
const WRITES: readonly Change[] = ['mark-active', 'mend-loader'];

export function tell(output: BootOrderOutput, machine: Machine): Told {
  const { verdict, tries, mend, symptom } = output;
  return {
    says: [
      STARTS[verdict](output),
      ...(symptom === null ? [] : [`People report that as ${symptom}.`]),
      sentence(mend),
    ],
    ...(tries.length === 0
      ? {}
      : {
          table: [
            ['', 'by', 'entry', 'device', 'what happens'],
            ...tries.map(({ by, entry, device, end }, place) => [
              `${place + 1}`,
              BY[by],
              named(entry, '-'),
              named(device, '-'),
              endOf(end).says,
            ]),
          ],
        }),
    limits: limits(output, machine),
    cautions: cautions(mend, machine),
  };
}

const BY = { once: 'once', list: 'list', default: 'default file' } as const;

function sentence({ change, target, tried }: Mend): string {
  if (change === 'none') return CHANGE.none('');
  const what = CHANGE[change](named(target, 'the drive inside'));
  return tried
    ? `What mends it: ${what} Worked out again with that change, it starts.`
    : `What comes first: ${what}`;
}

function cautions({ change }: Mend, { encryption }: Machine): string[] {
  const locked = encryption === 'on' || encryption === 'not-sure';
  return [
    ...(SETTINGS.includes(change) && locked
      ? [
          `The drive ${encryption === 'on' ? 'is' : 'may be'} encrypted: changed start settings may make it ask for its recovery key. Have the key on file for that identifier, or suspend the encryption, before anything is changed.`,
        ]
      : []),
    ...(change === 'change-mode'
      ? ['A system starts only in the mode it was set up for. Convert, format and install nothing for it.']
      : []),
    ...(change === 'save-data'
      ? ['Each start may be its last. No repair and no surface test before the data is safe.']
      : []),
    ...(WRITES.includes(change)
      ? ['A repair writes to the drive: only at the desk, once the data is safe.']
      : []),
    ...(change === 'find-drive'
      ? [
          'Nobody opens a case without the site rules and qualified people: shut down, unplug, battery and static first. If it clicked, was dropped or got wet, it is not started again.',
        ]
      : []),
  ];
}

function limits({ tries }: BootOrderOutput, { architecture, bootNext, entries }: Machine): string[] {
  const byDefault = tries.some(({ by }) => by === 'default');
  const offOnce = entries.some(({ name, active }) => name === bootNext && !active);
  return [
    'What is attached and what it holds is taken as told; what is not told is not there.',
    'Words on the screen differ between firmwares. With a drive seen and nothing on it to start, some say that there is no operating system (boot-no-os).',
    ...(byDefault
      ? [
          `After the list the specification asks for a look for ${DEFAULT_FILE[architecture]}, on removable media and then on fixed ones; the order within each is not defined, and not every firmware does it.`,
        ]
      : []),
    ...(tries.some(({ ambiguous }) => ambiguous)
      ? [
          'Two drives hold the partition that an entry names, as after copying a drive: which one is taken is not defined. Take the copy out.',
        ]
      : []),
    ...(offOnce
      ? [
          'An entry that is switched off is not started here, even when it is asked for once; some firmwares start it.',
        ]
      : []),
  ];
}

/** What people typed, without its line breaks, so that rows stay rows. */
const named = (name: string | null, otherwise = ''): string => name?.replace(/\s+/g, ' ') ?? otherwise;
