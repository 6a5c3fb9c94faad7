import { EFFECTS, type Effect, type Touch } from '#engine/schema.ts';
import type { SayStep, TryStep } from '#engine/script.ts';
import type { Rule, Trouble } from '../../rule.ts';
import { segmentSteps } from '../../written.ts';

const DRIVE =
  '(?:it|them|that|that one|yours|the (?:\\w+ )?(?:drive|stick|disk|disc|card|computer|machine|pc|laptop|server))';

/** Words of a step that show what it does. Common practice, no source; a word too few is worse than one too many. */
const EFFECT_WORDS: readonly [Exclude<Effect, 'none'>, RegExp][] = [
  ['start', new RegExp(`\\b(?:switch|turn|power) (?:${DRIVE} )?(?:back )?on\\b`)],
  ['start', new RegExp(`\\b(?:re)?(?:start|boot) (?:${DRIVE}|up|again|once)\\b`)],
  ['start', /\b(?:restart|reboot|press the power button)\b/],
  ['start', new RegExp(`\\bplug ${DRIVE}\\b`)],
  ['start', new RegExp(`\\b(?:push|put) ${DRIVE} (?:back in|in again)\\b`)],
  ['start', /\btry another (?:cable|port)\b|\battach it\b|\bstart-service\b|\bsystemctl start\b/],
  ['read', /(?<!\b(?:a|an|the|only|no|other|any) )\bcopy (?!of\b)/],
  ['read', /\b(?:scan|search|back up|look through) (?:it|the|your|its|for)\b/],
  ['read', /\bread the whole\b|\bopen (?:it there|one of them)\b|\bsend what you need\b/],
  ['read', /\b(?:robocopy|rsync|dd if=)/],
  ['write', /\b(?:format|initiali[sz]e|repair|defragment|erase|wipe|delete|reinstall|install|overwrite)\b/],
  [
    'write',
    /\b(?:update|flash) (?:the|its|your) (?:firmware|driver|bios|uefi)\b|\bempty (?:the )?(?:bin|trash|recycle)/,
  ],
  [
    'write',
    /\bright-click it(?:,| and) (?:restore|put back)\b|\brestore a copy\b|\bremove files\b|\bmove [^,]+ to the bin\b/,
  ],
  ['write', /\b(?:add|remove)-\w*keyprotector\b|\bluks(?:add|remove)key\b|\bchangerecovery\b/],
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
  [/\bcheck of the whole array\b|\bscrub\b/, ['array-check']],
  [/\battach it\b/, ['move-drive']],
  [/\b(?:sanitise|blkdiscard)\b|\boverwrite (?:it|every)\b/, ['format']],
  [/\bto a stick\b/, ['own-stick']],
  [/\b(?:tray|drive bay|hot.?swap)\b/, ['hot-swap', 'array-member', 'array-reseat']],
];

/** What hands are laid on has a least effect, whatever the words are. */
const LEAST: Partial<Record<Touch, Effect>> = {
  ...{
    'move-drive': 'start',
    'firmware-look': 'start',
    'firmware-settings': 'start',
    'array-start': 'start',
  },
  ...{ 'array-check': 'read', 'array-reseat': 'write', 'array-member': 'write', 'array-rebuild': 'write' },
  ...{ 'firmware-update': 'write', initialise: 'write', format: 'write' },
};

export const rule: Rule = {
  name: 'effects-true',
  proves: 'What a step does to the drive and lays hands on is what its words say, as far as words tell.',

  flow: ({ script }) =>
    segmentSteps(script).flatMap(step => {
      if (step.kind === 'say') return inPassing(step);
      return step.kind === 'try' ? [...tooMild(step), ...tooGentle(step), ...untold(step)] : [];
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

function tooGentle({ id, effect, touches }: TryStep): Trouble[] {
  const touch = touches.find(each => EFFECTS.indexOf(LEAST[each] ?? 'none') > EFFECTS.indexOf(effect));
  if (touch === undefined) return [];
  return [
    {
      ...{ step: id, path: ['effect'] },
      message: `who touches "${touch}" does more than effect ${effect}`,
      remedy: `declare effect: ${LEAST[touch]}, or take the touch out`,
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
    .split(/[.;:!?\n]+|\bonly then\b/);
  for (const sentence of sentences) {
    const found = words.exec(sentence);
    if (found === null || NOT.test(sentence.slice(0, found.index))) continue;
    if (/^\s*nothing\b/.test(sentence.slice(found.index + found[0].length))) continue;
    return found[0].trim();
  }
  return null;
}
