import { EFFECTS, type Effect, type Touch } from '#engine/schema.ts';
import type { Step, TryStep } from '#engine/script.ts';
import { isDesk } from '../../names.ts';
import type { Rule, Trouble } from '../../rule.ts';
import { segmentSteps } from '../../written.ts';

const DRIVE =
  '(?:it|them|that|that one|yours|the (?:\\w+ )?(?:drive|stick|disk|disc|card|computer|machine|pc|laptop|server))';

/** Words of a step that show what it does. Common practice, no source; a word too few is worse than one too many. */
const EFFECT_WORDS: readonly [Exclude<Effect, 'none'>, RegExp][] = [
  ['start', new RegExp(`\\b(?:switch|turn|power) (?:${DRIVE} )?(?:back )?on\\b`)],
  ['start', new RegExp(`\\b(?:re)?(?:start|boot) (?:${DRIVE}|up|again|once)\\b`)],
  ['start', /\b(?:restart|reboot|press the power button)\b/],
  ['start', /\boff and (?:back )?on\b/],
  ['start', new RegExp(`\\bplug (?:(?:back )?in )?${DRIVE}\\b`)],
  ['start', /\breconnect (?:it|the (?:drive|stick|disk|card))\b/],
  ['start', new RegExp(`\\b(?:push|put) ${DRIVE} (?:back in|in again)\\b`)],
  ['start', /\btry another (?:cable|port)\b|\battach it\b|\bstart-service\b|\bsystemctl start\b/],
  ['read', /(?<!\b(?:a|an|the|only|no|other|any) )\bcopy (?!of\b|that\b)/],
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
  ['write', /\brun (?:a |the )?(?:repair|recovery)\b/],
  ['write', /\b(?:chkdsk|fsck|diskpart|first aid|factory reset|recovery (?:program|software|tool))\b/],
  [
    'write',
    /\b(?:reset (?:the|your|this) (?:pc|computer|machine|laptop)|convert (?:it|the \w+) to|uninstall)\b/,
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
      const passing = [...inPassing(step, isDesk(script)), ...harms(step)];
      return step.kind === 'try'
        ? [...tooMild(step), ...tooGentle(step), ...untold(step), ...passing]
        : passing;
    }),
};

function tooMild(step: TryStep): Trouble[] {
  const told = (words: RegExp) => says(step.text, words) ?? says(step.help ?? '', words, AS_AN_ORDER);
  const found = EFFECT_WORDS.findLast(
    ([effect, words]) => EFFECTS.indexOf(effect) > EFFECTS.indexOf(step.effect) && told(words) !== null,
  );
  if (found === undefined) return [];
  const [effect, words] = found;
  return [
    {
      step: step.id,
      path: ['effect'],
      message: `"${told(words)}" is more than effect ${step.effect}`,
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

/** Told in passing, it has no effect declared and no rule looks at it. */
function inPassing(step: Step, desk: boolean): Trouble[] {
  return Object.entries(passingTexts(step, desk)).flatMap(([part, text]) => {
    const found = firstSaid(text, PASSING_WORDS, BEFORE[part] ?? AS_A_REQUEST);
    if (found === null) return [];
    return [
      {
        ...{ step: step.id, path: pathOf(part) },
        message: `"${found}" is something to do to the drive, told in passing`,
        remedy: 'make it a `try` step with its effect, or say plainly not to do it',
      },
    ];
  });
}

const PASSING_WORDS = EFFECT_WORDS.map(([, words]) => words);

function passingTexts(step: Step, desk: boolean): Record<string, string | null> {
  if (step.kind === 'say') return { say: step.text };
  if (desk) return {};
  if (step.kind === 'ask') return { ask: step.text, help: step.help };
  if (step.kind === 'try') return { works: step.works };
  if (step.kind === 'hand-over') return { because: step.because };
  return {};
}

const NOT =
  /\b(?:not|never|no|nobody|without|instead of|offers? to|asks? to|wants? to|don['’]t|doesn['’]t|won['’]t|can['’]t|cannot|yet to)\b/;

/** What people have heard that it helps. It never does, on nobody's drive. Common practice, no source. */
const HARMS: readonly RegExp[] = [
  /\bin(?:to|side)? (?:the |a |your |some )?(?:bag of )?(?:freezer|fridge|oven|rice)\b/,
  /\b(?:tap|knock|hit|slap|shake|bang|heat) (?:gently )?(?:on )?(?:it|the (?:drive|disk|stick|side))\b/,
  /\bgive it a (?:\w+ )?(?:shake|tap|knock)\b|\bhair ?dryer\b|\bon (?:the|a) radiator\b/,
];
/** What happened to it, and is asked about or told. */
const TOLD = /\b(?:was|were|been|had|has|have|did|if you|somebody|someone)\b/;

function harms(step: Step): Trouble[] {
  const texts =
    step.kind === 'try' ? { try: step.text, works: step.works, help: step.help } : passingTexts(step, false);
  return Object.entries(texts).flatMap(([part, text]) => {
    const asked = part === 'ask' || part === 'works';
    const found = firstSaid(text, HARMS, asked ? AS_AN_ORDER : ANYWHERE, TOLD);
    if (found === null) return [];
    return [
      {
        ...{ step: step.id, path: pathOf(part) },
        message: `"${found}" hurts what it is done to`,
        remedy: 'take it out, or say plainly not to do it',
      },
    ];
  });
}

const pathOf = (part: string): string[] => (part === 'because' ? ['hand_over', part] : [part]);

const ANYWHERE = /$/;
/** A verb at the beginning of what is said, as in "format it" and not in "after the format". */
const AS_AN_ORDER =
  /(?:^|,|\b(?:please|then|now|and|first|so|just|else|also|you can|you may|feel free to|try to))\s*$/;
const AS_A_REQUEST = new RegExp(`${AS_AN_ORDER.source}|\\b(?:could|can|would) you\\s*$`);
/** "Could you copy it?" asks in a step's `works` whether it went well. */
const BEFORE: Readonly<Record<string, RegExp>> = { say: ANYWHERE, works: AS_AN_ORDER };
/** Asks what was, and orders nothing. */
const ASKS = /^\s*(?:did|was|were|has|have|had|is|are|does|do you|what|which|who|when|how)\b/;

/** "If it does not run, ..." and "It can't get worse, so ..." forbid nothing of what follows. */
const CONDITION = /^.*(?:\b(?:if|when|where|should|unless|because|since|as)\b[^,]*,|, so\b)/;
/** Words with a "not" that forbid nothing. */
const IDIOMS =
  /\b(?:(?:don['’]t|do not) (?:worry|wait|hesitate)|never mind|no worries|(?:does|do)(?: not|n['’]t) matter|can['’]t hurt(?: to)?|without further ado)\b/;
/** Forbids to the end of the sentence, whatever comes between. */
const FORBIDS = /^\s*(?:please )?(?:never|don['’]t|do not|not|under no circumstances)\b/;

function firstSaid(
  text: string | null,
  all: readonly RegExp[],
  before: RegExp,
  unless: RegExp | null = null,
): string | null {
  if (text === null) return null;
  for (const words of all) {
    const found = says(text, words, before, unless);
    if (found !== null) return found;
  }
  return null;
}

/**
 * The words as they stand in the text, unless the sentence forbids them. `before`: what must stand in front of them;
 * `unless`: what may not.
 */
function says(text: string, words: RegExp, before = ANYWHERE, unless: RegExp | null = null): string | null {
  const plain = text.replace(/[*`_]/g, '').toLowerCase();
  if (!words.test(plain)) return null;
  const every = new RegExp(words, 'g');
  for (const sentence of plain.split(/[.;:!?\n]+|\bonly then\b/)) {
    if (before !== ANYWHERE && ASKS.test(sentence)) continue;
    for (const { 0: found, index } of sentence.matchAll(every)) {
      const lead = sentence.slice(0, index).replace(IDIOMS, '');
      if (FORBIDS.test(lead) || !before.test(lead) || unless?.test(lead)) continue;
      if (NOT.test(lead.replace(CONDITION, ''))) continue;
      if (/^\s*(?:nothing|neither|none)\b/.test(sentence.slice(index + found.length))) continue;
      return found.trim();
    }
  }
  return null;
}
