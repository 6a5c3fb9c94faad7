import { isQuestionStep } from '#engine/advance.ts';
import type { Catalogue } from '#engine/catalogue.ts';
import { decides } from '#engine/interrupts.ts';
import type { Keep, Question } from '#engine/script.ts';
import { ATTACK_SIGN, CONFIRMED_WORDS, DANGER_WHEN, LOST, WET, WET_WORDS } from '../../names.ts';
import type { Opened, PlacedTrouble, Rule, Trouble } from '../../rule.ts';
import type { View } from '../../view.ts';

const UTMOST = ['danger', 'attack'] as const;
type Utmost = (typeof UTMOST)[number];

export const rule: Rule = {
  name: 'danger-everywhere',
  proves:
    'A word for danger or attack is heard at every question, outranks everything, and once it is confirmed nobody is asked to try anything.',

  opened(at) {
    const { step, view } = at;
    if (view.sign('danger')) return step.kind === 'try' ? TRIES : null;
    if (view.sign('attack') && step.kind === 'try' && step.effect !== 'none') return USES;
    if (isFalseAlarm(at)) return KEPT_ASKING;
    const early = UTMOST.find(sign => !view.sign(sign) && view.said(CONFIRMED_WORDS[sign]));
    if (early !== undefined) return tooEarly(early);
    return UTMOST.map(sign => unheard(sign, at)).find(trouble => trouble !== null) ?? null;
  },

  ended({ view, by, step, outcome }) {
    const sign = UTMOST.find(each => view.sign(each));
    if (sign === undefined) return null;
    if (outcome.how === 'escalated' && by !== 'answer' && step.kind !== 'end')
      return by === 'flow' ? (kept(sign, outcome.keep, view) ?? unsaid(sign, view)) : null;
    return {
      message: `with ${sign} confirmed the conversation ends without a hand-over`,
      remedy: `hand over as soon as ${sign} is confirmed`,
    };
  },

  flow: ({ script }) => [
    ...UTMOST.filter(sign => script.onSign[sign] === undefined).map(sign => ({
      message: `no caution is said when ${sign} is raised`,
      remedy: `give one caution of catalogue/cautions.yaml \`on_sign: ${sign}\``,
    })),
    ...Object.values(script.interrupts).flatMap(({ about, steps }) => {
      const asked = steps.filter((step): step is Question => 'after' in step);
      const raises = asked.filter(({ after }) =>
        Object.values(after).some(then => then.raises.includes(about.sign)),
      );
      if (raises.length === 0 && steps.length > 0) {
        return [
          {
            step: steps[0]!.id,
            message: `no answer here raises ${about.sign}, which the block is there to find out`,
            remedy: `let the answers that confirm it raise ${about.sign}`,
          },
        ];
      }
      return raises
        .filter(({ after }) => after['not-sure']?.raises.includes(about.sign) === false)
        .map(unsure);
    }),
  ],

  together: (subjects, catalogue) => catalogueTroubles(catalogue, subjects[0]?.script.symptom ?? ''),
};

const isLost = (sign: Utmost, view: View): boolean => sign === 'attack' && view.is(ATTACK_SIGN, LOST);

/** In danger the machine is off, if that is safe to do; after an attack nobody switches it off. What is lost is neither. */
function kept(sign: Utmost, keep: Keep | null, view: View): Trouble | null {
  if (isLost(sign, view)) return keep === null ? null : LOST_KEPT;
  if (keep === (sign === 'danger' ? 'off' : 'on')) return null;
  const told =
    keep === null ? 'nothing about its power' : `to keep it ${keep === 'as-it-is' ? 'as it is' : keep}`;
  return {
    path: ['hand_over'],
    message: `with ${sign} confirmed the person is told ${told}`,
    remedy: sign === 'danger' ? 'say `keep: off`' : 'say `keep: on`: what it holds in memory helps security',
  };
}

function unsaid(sign: Utmost, view: View): Trouble | null {
  const words = CONFIRMED_WORDS[sign];
  const wet = sign === 'danger' && view.is(DANGER_WHEN, WET);
  if (wet && !view.said(WET_WORDS)) return DRY_WORDS;
  if (isLost(sign, view) || view.said(words)) return null;
  return {
    path: ['hand_over'],
    message: `with ${sign} confirmed it is handed over without the words of "${words}"`,
    remedy: `say "${words}" as soon as ${sign} is confirmed`,
  };
}

const LOST_KEPT: Trouble = {
  path: ['hand_over'],
  message: 'it is lost or stolen, and the person is told what to do with its power',
  remedy: `leave \`keep\` out where { ${ATTACK_SIGN}: ${LOST} }`,
};

const DRY_WORDS: Trouble = {
  path: ['hand_over'],
  message: `it got wet, and it is handed over without the words of "${WET_WORDS}"`,
  remedy: `say "${WET_WORDS}" where { ${DANGER_WHEN}: ${WET} }`,
};

const tooEarly = (sign: Utmost): Trouble => ({
  message: `"${CONFIRMED_WORDS[sign]}" was said and ${sign} is not confirmed`,
  remedy: `say it only where { ${sign}: "yes" }: whoever hears it for nothing no longer believes it`,
});

/** In an interrupt's questions, past the first, with nothing raised that the questions could be for. */
function isFalseAlarm({ script, segment, step, view }: Opened): boolean {
  const interrupt = script.interrupts[segment];
  if (interrupt === undefined || interrupt.steps.find(isQuestionStep) === step) return false;
  return ![interrupt.about.sign, 'hardware-failure' as const].some(sign => view.sign(sign));
}

const KEPT_ASKING: Trouble = {
  message: 'after a false alarm the questions of the alarm go on',
  remedy:
    'let what follows stand only where the sign is raised, so that the person comes back to their question',
};

const TRIES: Trouble = {
  message: 'after a danger is confirmed a step is still offered',
  remedy: 'hand over once danger is raised; the person keeps away from the machine',
};

const USES: Trouble = {
  message: 'after an attack is confirmed the machine is still used',
  remedy: 'hand over once attack is raised; the machine stays on and untouched',
};

function unheard(sign: Utmost, { script, segment, step, view, interrupts }: Opened): Trouble | null {
  const open = script.interrupts[segment]?.about;
  const asking = (id: string) => script.interrupts[id]!.about.sign === sign && decides(script, id, step);
  if (step.within?.some(asking)) return null;
  if (view.sign(sign) || open?.sign === sign || open?.sign === 'danger') return null;
  if (interrupts.some(id => script.interrupts[id]!.about.sign === sign)) return null;
  return {
    message: `a word for ${sign} is not heard at this question`,
    remedy: `give catalogue/interrupts.yaml an interrupt for ${sign} that outranks this one`,
  };
}

const unsure = ({ id }: Question): Trouble => ({
  step: id,
  path: ['raises'],
  message: 'who is not sure is taken to be safe',
  remedy: 'let `not-sure` raise the sign as well',
});

function catalogueTroubles({ interrupts }: Catalogue, flow: string): PlacedTrouble[] {
  const all = Object.entries(interrupts);
  return all.flatMap(([id, { sign, rank, not_for }]) => {
    const at = (part: string, message: string, remedy: string): PlacedTrouble => ({
      ...{ flow, unit: 'catalogue/interrupts.yaml', path: [id, part], message, remedy },
    });
    if (sign !== 'danger' && sign !== 'attack') return [];
    const lower = all.filter(([, other]) => other.sign !== 'danger' && other.sign !== sign);
    return [
      ...(not_for ? [at('not_for', `${sign} is heard in every flow`, 'take `not_for` out')] : []),
      ...(lower.some(([, other]) => other.rank >= rank)
        ? [at('rank', `${sign} must outrank what is not danger`, 'give it a higher rank than those')]
        : []),
    ];
  });
}
