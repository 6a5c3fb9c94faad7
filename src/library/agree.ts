/** Names and values in one file that stand for something in another, and words that could never be heard. */
import { type Catalogue, type Site, SYMPTOMS } from '#engine/catalogue.ts';
import type { Problem } from '#engine/compile.ts';
import { choiceOf } from '#engine/near.ts';
import { codeToken } from '#engine/tokens.ts';

/** The places and what to do about them; empty where catalogue and site.yaml agree. */
export const disagreements = (catalogue: Catalogue, site: Site): Problem[] => [
  ...Object.entries(namedSymptoms(catalogue)).flatMap(([file, named]) =>
    named
      .filter(({ symptom }) => !(SYMPTOMS as readonly string[]).includes(symptom))
      .map(({ symptom, path }) => ({
        unit: `catalogue/${file}`,
        path,
        message: `"${symptom}" is no symptom`,
        remedy: choiceOf(symptom, SYMPTOMS),
      })),
  ),
  ...suspected(catalogue),
  ...silentPhrases(catalogue),
  ...policies(catalogue, site),
  ...doubledCodes(catalogue),
  ...places(site),
];

interface Named {
  symptom: string;
  path: (string | number)[];
}

function namedSymptoms({ symptoms, faults, interrupts, screenMessages, osCodes }: Catalogue) {
  const of = (all: Record<string, { symptom: string; on_share?: string | undefined }>): Named[] =>
    Object.entries(all).flatMap(([id, { symptom, on_share }]) => [
      { symptom, path: [id, 'symptom'] },
      ...(on_share === undefined ? [] : [{ symptom: on_share, path: [id, 'on_share'] }]),
    ]);
  return {
    'symptoms.yaml': Object.keys(symptoms).map((symptom): Named => ({ symptom, path: [symptom] })),
    'faults.yaml': Object.entries(faults).flatMap(([id, fault]) =>
      fault.symptoms.map((symptom, at): Named => ({ symptom, path: [id, 'symptoms', at] })),
    ),
    'interrupts.yaml': Object.entries(interrupts).flatMap(([id, { not_for = [] }]) =>
      not_for.map((symptom, at): Named => ({ symptom, path: [id, 'not_for', at] })),
    ),
    'screen-messages.yaml': of(screenMessages),
    'os-codes.yaml': of(osCodes),
  };
}

/** What an alarm makes suspected, by itself or by an answer. */
const suspected = ({ interrupts, faults }: Catalogue): Problem[] =>
  Object.entries(interrupts).flatMap(([id, { outranks }]) => {
    const path = [id, 'outranks'];
    const byAnswer = Object.entries(outranks?.where ?? {}).flatMap(([finding, answers]) =>
      Object.entries(answers).map(([answer, about]) => ({
        path: [...path, 'where', finding, answer],
        named: about.faults,
      })),
    );
    return [{ path, named: outranks?.faults ?? [] }, ...byAnswer].flatMap(each =>
      each.named.flatMap((fault, at) =>
        fault in faults
          ? []
          : [
              {
                unit: 'catalogue/interrupts.yaml',
                path: [...each.path, 'faults', at],
                message: `there is no fault "${fault}"`,
                remedy: choiceOf(fault, Object.keys(faults)),
              },
            ],
      ),
    );
  });

const WORD = /[\p{L}\p{N}]/u;
/** Each way through the words that stand for several; ours have some thousand. */
const MOST_WAYS = 3000;

/** `\\*` is the path of any share, which is one word. */
const startsInWords = (text: string): boolean =>
  text.startsWith('\\\\') || WORD.test(text.split(/[\s*]/)[0] ?? '');

/** A phrase without a word is heard in everything or in nothing. */
function silentPhrases({ interrupts, screenMessages, symptoms }: Catalogue): Problem[] {
  const told = (file: string, path: (string | number)[], message: string, remedy: string): Problem => ({
    unit: `catalogue/${file}`,
    path,
    message,
    remedy,
  });
  const alarms = Object.entries(interrupts).flatMap(([id, alarm]) =>
    (['sure', 'doubtful', 'unless'] as const).flatMap(list =>
      (alarm[list] ?? []).flatMap((phrase, at) => {
        const words = phrase.split(' ').map(word => word.split('|'));
        const path = [id, list, at];
        if (!words.flat().every(word => WORD.test(word)))
          return [
            told(
              'interrupts.yaml',
              path,
              `"${phrase}" has a word that is none`,
              'write words only, and one on each side of |',
            ),
          ];
        const ways = words.reduce((product, { length }) => product * length, 1);
        return ways > MOST_WAYS
          ? [
              told(
                'interrupts.yaml',
                path,
                `"${phrase}" stands for ${ways} phrases, and ${MOST_WAYS} is the most`,
                'make several phrases of it',
              ),
            ]
          : [];
      }),
    ),
  );
  const screens = Object.entries(screenMessages).flatMap(([id, { texts }]) =>
    texts.flatMap((text, at) =>
      startsInWords(text)
        ? []
        : [
            told(
              'screen-messages.yaml',
              [id, 'texts', at],
              `"${text}" does not begin with a word`,
              'begin with the first word that stands on the screen; * may follow it',
            ),
          ],
    ),
  );
  const said = Object.entries(symptoms).flatMap(([id, { phrases, also = {} }]) =>
    [...phrases, ...Object.values(also).flat()].flatMap(phrase =>
      WORD.test(phrase)
        ? []
        : [told('symptoms.yaml', [id, 'phrases'], `"${phrase}" has no word in it`, 'write what people say')],
    ),
  );
  return [...alarms, ...screens, ...said];
}

function policies({ policies: known }: Catalogue, site: Site): Problem[] {
  const wrong = (unit: string, path: string[], value: string, values: string[]): Problem[] =>
    values.includes(value)
      ? []
      : [{ unit, path, message: `"${value}" is none of its values`, remedy: choiceOf(value, values) }];
  return [
    ...Object.entries(known).flatMap(([id, { values, default: usual }]) =>
      wrong('catalogue/policies.yaml', [id, 'default'], usual, values),
    ),
    ...Object.entries(site.policies).flatMap(([id, value]) =>
      Object.hasOwn(known, id)
        ? wrong('site', ['policies', id], value, known[id]!.values)
        : [
            {
              unit: 'site',
              path: ['policies', id],
              message: `there is no policy "${id}"`,
              remedy: choiceOf(id, Object.keys(known)),
            },
          ],
    ),
  ];
}

/** The same number twice would lead to the last of them. */
function doubledCodes({ osCodes }: Catalogue): Problem[] {
  const first = new Map<string, string>();
  return Object.entries(osCodes).flatMap(([id, { kind, code }]) => {
    const token = codeToken(kind, code);
    const other = first.get(token);
    if (other === undefined) first.set(token, id);
    return other === undefined
      ? []
      : [
          {
            unit: 'catalogue/os-codes.yaml',
            path: [id, 'code'],
            message: `the ${kind} ${code} stands at "${other}" already`,
            remedy: 'keep one of the two',
          },
        ];
  });
}

function places({ sites, emergency }: Site): Problem[] {
  const zones = Object.entries(sites).flatMap(([id, { time_zone }]) =>
    isZone(time_zone)
      ? []
      : [
          {
            unit: 'site',
            path: ['sites', id, 'time_zone'],
            message: `"${time_zone}" is no time zone`,
            remedy: choiceOf(
              time_zone,
              Intl.supportedValuesOf('timeZone'),
              'write one such as Europe/London',
            ),
          },
        ],
  );
  const digits = (text: string) => text.replace(/\D/g, '');
  const numbers = emergency.words.match(/\d[\d\s()./-]*\d/g)?.map(digits) ?? [];
  return numbers.some(number => number === digits(emergency.number))
    ? zones
    : [
        ...zones,
        {
          unit: 'site',
          path: ['emergency', 'words'],
          message: `the number ${emergency.number} does not stand in these words`,
          remedy: 'write the same number at both',
        },
      ];
}

function isZone(name: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: name });
    return true;
  } catch {
    return false;
  }
}
