/** Start order against a second way of counting, over every small list there is, and what is said of it. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readYaml } from '#library/yaml.ts';
import { SECTOR_ENDS, SYMPTOMS } from '#workings/boot-order/ends.ts';
import { DEFAULT, type Device, done, result, someMachine } from './machines.ts';

/** All rows that take one of each list. */
function* rows<T extends unknown[]>(...lists: { [K in keyof T]: readonly T[K][] }): Generator<T> {
  const [first, ...rest] = lists as readonly unknown[][];
  if (first === undefined) yield [] as unknown as T;
  else for (const one of first) for (const others of rows(...rest)) yield [one, ...others] as T;
}

const ENTRIES = [...rows<[string, boolean]>(['drive', 'stick', 'gone'], [true, false])];

describe('every small list there is', () => {
  /**
   * Second method: a start is a line of letters, one for each try: a dot goes on, S and D start stick or drive, X stops with "no
   * system". The first letter that is no dot decides.
   */
  const letters = (word: string) => /[SDX]/.exec(word)?.[0] ?? '.';
  const VERDICT: Record<string, string> = { S: 'starts-other', D: 'starts', X: 'no-os', '.': 'no-device' };

  test('UEFI: two entries, what is asked for once, what is on drive and stick, secure start, looking further', () => {
    const CONTENTS = { empty: null, signed: 'ok', unsigned: 'unsigned', bare: 'no-system' } as const;
    type Content = keyof typeof CONTENTS;
    const all = Object.keys(CONTENTS) as Content[];
    const loaders = (content: Content): Device['loaders'] =>
      ({
        empty: [],
        signed: [DEFAULT],
        unsigned: [{ file: DEFAULT, signed: false }],
        bare: [{ file: DEFAULT, leadsTo: 'no-system' }],
      })[content];
    let count = 0;
    for (const [one, two, once, onDrive, onStick, secureStart, defaultSearch] of rows<
      [[string, boolean], [string, boolean], number, Content, Content, boolean, boolean]
    >(ENTRIES, ENTRIES, [-1, 0, 1], all, all, [true, false], [true, false])) {
      const letter = (device: string) => {
        const content = device === 'drive' ? onDrive : device === 'stick' ? onStick : 'empty';
        if (content === 'empty' || (content === 'unsigned' && secureStart)) return '.';
        return content === 'bare' ? 'X' : device === 'drive' ? 'D' : 'S';
      };
      const list = [one, two].map(([device, active]) => (active ? letter(device) : '.'));
      const word = `${once < 0 ? '' : list[once]}${list.join('')}${defaultSearch ? letter('stick') + letter('drive') : ''}`;
      const output = result({
        secureStart,
        defaultSearch,
        ...(once < 0 ? {} : { bootNext: `entry ${once}` }),
        entries: [one, two].map(([device, active], index) => ({ name: `entry ${index}`, device, active })),
        devices: [
          { name: 'drive', kind: 'internal', loaders: loaders(onDrive)! },
          { name: 'stick', kind: 'stick', loaders: loaders(onStick)! },
        ],
      });
      if (output.verdict !== VERDICT[letters(word)])
        throw new Error(`${word}: ${JSON.stringify([one, two, once, onDrive, onStick, output])}`);
      count += 1;
    }
    expect(count).toBe(6912);
  });

  test('legacy: two entries, and every first sector on drive and stick', () => {
    const OF: Record<string, string> = {
      none: '.',
      'no-active': '.',
      'data-disk': 'n',
      'two-active': 'o',
      'record-unreadable': 'r',
      'record-unsigned': 'o',
      'loader-missing': 'o',
      'no-system': 'o',
      'system-unreadable': 'r',
      'asks-key': 'k',
    };
    const VERDICTS_OF: Record<string, string> = {
      n: 'no-device',
      o: 'no-os',
      r: 'read-error',
      k: 'asks-key',
      D: 'starts',
      S: 'starts-other',
    };
    for (const [one, two, onDrive, onStick] of rows<[[string, boolean], [string, boolean], string, string]>(
      ENTRIES,
      ENTRIES,
      SECTOR_ENDS,
      SECTOR_ENDS,
    )) {
      const word = [one, two]
        .map(([device, active]) => {
          if (!active || device === 'gone') return '.';
          const sector = device === 'drive' ? onDrive : onStick;
          return OF[sector] ?? (device === 'drive' ? 'D' : 'S');
        })
        .join('')
        .replaceAll('.', '');
      const output = result({
        firmware: 'legacy',
        entries: [one, two].map(([device, active], index) => ({ name: `entry ${index}`, device, active })),
        devices: [
          { name: 'drive', kind: 'internal', firstSector: onDrive },
          { name: 'stick', kind: 'stick', firstSector: onStick },
        ],
      });
      if (output.verdict !== (VERDICTS_OF[word.slice(0, 1)] ?? 'no-device'))
        throw new Error(`${word}: ${JSON.stringify([one, two, onDrive, onStick, output])}`);
    }
  });
});

describe('what is said', () => {
  const settings = [
    'enable-entry',
    'put-first',
    'add-entry',
    'set-timeout',
    'switch-on',
    'change-mode',
    'secure-start-off',
  ];

  test('before a setting is changed, the recovery key comes first, unless the drive is not locked', () => {
    fc.assert(
      fc.property(someMachine, machine => {
        const { output, told } = done(machine);
        const open = machine.encryption === 'off' || machine.encryption === 'suspended';
        const warned = told.cautions?.some(caution => caution.includes('recovery key')) ?? false;
        expect(warned).toBe(settings.includes(output.mend.change) && !open);
      }),
      { numRuns: 1500 },
    );
  });

  test('every symptom that is named is in the catalogue', () => {
    const file = 'flows/catalogue/symptoms.yaml';
    const known = Object.keys(readYaml(file, readFileSync(file, 'utf8')).value as object);
    expect(SYMPTOMS.filter(symptom => !known.includes(symptom))).toEqual([]);
  });

  test('a start-once entry that is switched off is passed over, with a word that firmwares differ', () => {
    const { output, told } = done({
      entries: [{ name: 'tool', device: 'drive', active: false }],
      order: [],
      bootNext: 'tool',
      defaultSearch: false,
      devices: [{ name: 'drive', kind: 'internal', loaders: [DEFAULT] }],
    });
    expect(output.tries).toMatchObject([{ by: 'once', end: 'inactive' }]);
    expect(told.limits.join(' ')).toContain('some firmwares start it');
  });

  test('names that people type stay on their row', () => {
    const { told } = done({
      entries: [{ name: 'a\nb', device: 'c\td' }],
      devices: [{ name: 'c\td', kind: 'internal' }],
    });
    expect(told.table!.flat().filter(cell => /[\n\t]/.test(cell))).toEqual([]);
  });
});
