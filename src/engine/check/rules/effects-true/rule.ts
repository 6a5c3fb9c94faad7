import { EFFECTS, type Effect, type Touch } from '#engine/schema.ts';
import type { SayStep, TryStep } from '#engine/script.ts';
import type { Rule, Trouble } from '../../rule.ts';
import { segmentSteps } from '../../written.ts';

const DRIVE =
  '(?:it|them|that one|the (?:\\w+ )?(?:drive|stick|disk|disc|card|computer|machine|pc|laptop|server))';

/** Words of a step that show what it does. Common practice, no source; a word too few is worse than one too many. */
const EFFECT_WORDS: readonly [Exclude<Effect, 'none'>, RegExp][] = [
  ['start', new RegExp(`\\b(?:switch|turn|power) (?:${DRIVE} )?(?:back )?on\\b`)],
  ['start', new RegExp(`\\b(?:re)?(?:start|boot) (?:${DRIVE}|up|again|once)\\b`)],
  ['start', /\b(?:restart|reboot|press the power button)\b/],
  ['start', new RegExp(`\\bplug ${DRIVE}\\b`)],
  ['read', /(?<!\b(?:a|an|the|only|no|other|any) )\bcopy (?!of\b)/],
  ['read', /\b(?:scan|search|back up|look through) (?:it|the|your|its|for)\b/],
  ['write', /\b(?:format|initiali[sz]e|repair|defragment|erase|wipe|delete|reinstall|install|overwrite)\b/],
  [
    'write',
    /\b(?:update|flash) (?:the|its|your) (?:firmware|driver|bios|uefi)\b|\bempty the (?:bin|trash|recycle)/,
  ],
];

const TOUCH_WORDS: readonly [RegExp, readonly Touch[]][] = [
  [/\bopen (?:up )?(?:the|its|your|a) power supply\b/, ['power-supply']],
  [
    /\b(?:open|take off|remove|unscrew) (?:the|its|your|a) (?:\w+ )?(?:case|cover|housing|side panel|panel)\b/,
    ['case'],
  ],
  [/\b(?:memory|ram) (?:modules?|sticks?|bars?)\b/, ['module']],
  [/\b(?:sata|inside|internal|data|two|both) (?:cables?|leads?)\b/, ['inside-cable']],
  [/\b(?:stick|drive) of your own\b|\byour own (?:usb )?(?:stick|drive)\b/, ['own-stick']],
  [
    /\b(?:firmware|bios|uefi)\b|\bkey for its settings\b/,
    ['firmware-look', 'firmware-settings', 'firmware-update', 'security-chip'],
  ],
  [/\binitiali[sz]e\b/, ['initialise']],
  [/\bformat\b/, ['format']],
  [/\brebuild\b/, ['array-rebuild']],
  [/\b(?:tray|drive bay|hot.?swap)\b/, ['hot-swap', 'array-member', 'array-reseat']],
];

export const rule: Rule = {
  name: 'effects-true',
  proves: 'What a step does to the drive and lays hands on is what its words say, as far as words tell.',

  flow: ({ script }) =>
    segmentSteps(script).flatMap(step => {
      if (step.kind === 'say') return inPassing(step);
      return step.kind === 'try' ? [...tooMild(step), ...untold(step)] : [];
    }),
};

function tooMild(step: TryStep): Trouble[] {
  const found = EFFECT_WORDS.findLast(
    ([effect, words]) =>
      EFFECTS.indexOf(effect) > EFFECTS.indexOf(step.effect) && says(step.text, words) !== null,
  );
  if (found === undefined) return [];
  const [effect, words] = found;
  return [
    {
      step: step.id,
      path: ['effect'],
      message: `"${says(step.text, words)}" is more than effect ${step.effect}`,
      remedy: `declare effect: ${effect}, or word the step so that it does less`,
    },
  ];
}

function untold(step: TryStep): Trouble[] {
  return TOUCH_WORDS.flatMap(([words, touches]) => {
    const said = says(step.text, words);
    if (said === null || touches.some(touch => step.touches.includes(touch))) return [];
    return [
      {
        step: step.id,
        message: `"${said}" needs care that the step does not declare`,
        remedy: `add touches: [${touches.join('] or [')}]`,
      },
    ];
  });
}

/** Told in passing, a start has no effect declared and no rule looks at it. */
function inPassing(step: SayStep): Trouble[] {
  const found = EFFECT_WORDS.map(([, words]) => says(step.text, words)).find(said => said !== null);
  if (!found) return [];
  return [
    {
      step: step.id,
      path: ['say'],
      message: `"${found}" is something to do to the drive, told in passing`,
      remedy: 'make it a `try` step with its effect, or say plainly not to do it',
    },
  ];
}

const NOT =
  /\b(?:not|never|no|nobody|without|instead of|offers? to|asks? to|wants? to|don['’]t|doesn['’]t|won['’]t|can['’]t|cannot|yet to)\b/;

/** The words as they stand in the text, unless the sentence forbids them. */
function says(text: string, words: RegExp): string | null {
  const sentences = text
    .replace(/[*`_]/g, '')
    .toLowerCase()
    .split(/[.;:!?\n]+/);
  for (const sentence of sentences) {
    const found = words.exec(sentence);
    if (found === null || NOT.test(sentence.slice(0, found.index))) continue;
    if (/^\s*nothing\b/.test(sentence.slice(found.index + found[0].length))) continue;
    return found[0].trim();
  }
  return null;
}
