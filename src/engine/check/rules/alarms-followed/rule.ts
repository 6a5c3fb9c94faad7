import { isQuestionStep } from '#engine/advance.ts';
import type { Catalogue, Interrupts } from '#engine/catalogue.ts';
import type { Question, Step } from '#engine/script.ts';
import { isVisitOf, leadsTo } from '../../alarms.ts';
import { isAboutArray, NOISE } from '../../names.ts';
import type { PlacedTrouble, Rule, Subject } from '../../rule.ts';

export const rule: Rule = {
  name: 'alarms-followed',
  proves:
    'An answer whose words would be an alarm if they were typed raises a sign or leads straight to the alarm; the alarm says its words first, and only to those whom it concerns.',

  together: (subjects, { interrupts }) =>
    subjects.flatMap(subject => [
      ...segmentsOf(subject).flatMap(steps =>
        steps.flatMap((step, index) => [
          ...(isQuestionStep(step) ? passedOver(step, steps.slice(index + 1), subject, interrupts) : []),
          ...forEverybody(step, steps[index + 1], subject, interrupts),
        ]),
      ),
      ...Object.values(subject.script.interrupts).flatMap(alarm => wordless(alarm, subject)),
    ]),
};

const segmentsOf = ({ script }: Subject): Step[][] => [
  script.main,
  ...Object.values(script.interrupts).map(({ steps }) => steps),
];

function placed(
  subject: Subject,
  step: Step,
  path: readonly string[],
  message: string,
  remedy: string,
): PlacedTrouble[] {
  const origin = subject.compiled.origins[step.id];
  if (origin === undefined) return [];
  return [
    { flow: subject.script.symptom, unit: origin.unit, path: [...origin.path, ...path], message, remedy },
  ];
}

/** Answers that speak of an alarm, raise no sign and do not lead to the alarm's own questions. */
function passedOver(
  step: Question,
  later: readonly Step[],
  subject: Subject,
  interrupts: Catalogue['interrupts'],
): PlacedTrouble[] {
  return step.answers.flatMap(({ id, label }) => {
    if (isHurt(label) && !isExempt(step, subject)) return hurt(step, id, label, later, subject, interrupts);
    if (step.after[id]!.raises.length > 0) return [];
    const alarm = heardIn(label, interrupts).find(
      ({ not_for = [] }) => !not_for.includes(subject.script.symptom),
    );
    if (alarm === undefined) return [];
    if (leadsTo(alarm.block, step, id, later, subject.compiled)) return [];
    return placed(
      ...([subject, step, ['answers', id]] as const),
      `"${label}" speaks of ${alarm.sign}, raises no sign and does not lead to "${alarm.block}"`,
      `raise a sign with it, or visit "${alarm.block}" next`,
    );
  });
}

/** What a moving part is hurt by, or sounds like when it is. */
const isHurt = (label: string): boolean =>
  /\b(?:clicks?|clicking|grinds?|grinding|scrapes?|scraping|dropped(?! out))\b/i.test(label) &&
  !NEGATED.test(spaced(label));

/** What the sound itself tells is weighed with where it comes from; an array carries a member that clicks. */
const isExempt = ({ finding }: Question, { script }: Subject): boolean =>
  finding === NOISE || isAboutArray(script);

/** A drive that clicks or was dropped is not used any more, by nobody: no lesser sign will do. */
function hurt(
  step: Question,
  answer: string,
  label: string,
  later: readonly Step[],
  subject: Subject,
  interrupts: Catalogue['interrupts'],
): PlacedTrouble[] {
  if (step.after[answer]!.raises.includes('mechanical')) return [];
  const blocks = Object.values(interrupts).filter(({ sign }) => sign === 'mechanical');
  if (blocks.some(({ block }) => leadsTo(block, step, answer, later, subject.compiled))) return [];
  return placed(
    ...([subject, step, ['answers', answer]] as const),
    `"${label}" is a drive that is hurt, and mechanical is not raised`,
    'raise mechanical with it, so that nothing starts, reads or listens to it',
  );
}

/** By label: a block's answers stand in every flow that visits it, and each is held against hundreds of phrases. */
const heard = new WeakMap<Interrupts, Map<string, Interrupts[string][]>>();

/** The alarms that an answer would be, in so many words, if it were typed. */
function heardIn(label: string, interrupts: Interrupts): Interrupts[string][] {
  const all = heard.get(interrupts) ?? new Map<string, Interrupts[string][]>();
  heard.set(interrupts, all);
  const known = all.get(label);
  if (known !== undefined) return known;
  const words = spaced(label);
  const found = NEGATED.test(words)
    ? []
    : Object.values(interrupts).filter(({ sure, unless = [] }) => isIn(words, sure) && !isIn(words, unless));
  all.set(label, found);
  return found;
}

const NEGATED = / (?:no|not|nothing|none|never) /;

const spaced = (text: string): string => ` ${text.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, ' ')} `;

/** Phrases as they would stand in a label. */
const spacedPhrases = new WeakMap<readonly string[], string[]>();

function isIn(words: string, phrases: readonly string[]): boolean {
  const known = spacedPhrases.get(phrases) ?? phrases.map(spaced);
  spacedPhrases.set(phrases, known);
  return known.some(phrase => words.includes(phrase));
}

/** Its words are said to whoever comes there. */
function forEverybody(
  step: Step,
  next: Step | undefined,
  subject: Subject,
  interrupts: Catalogue['interrupts'],
): PlacedTrouble[] {
  const alarm = Object.values(interrupts).find(({ block }) => isVisitOf(block, step, next, subject.compiled));
  if (alarm === undefined || step.if !== null) return [];
  return placed(
    ...([subject, step, ['visit']] as const),
    `everybody is led to "${alarm.block}", and hears the words of ${alarm.sign}`,
    'visit it only where an answer speaks of it (`if`)',
  );
}

/** Whoever is led there by an answer has not heard the words that come with the typed word. */
function wordless(
  { about, steps }: Subject['script']['interrupts'][string],
  subject: Subject,
): PlacedTrouble[] {
  const first = steps.findIndex(isQuestionStep);
  const before = first === -1 ? steps : steps.slice(0, first);
  if (steps.length === 0) return [];
  if (before.some(step => step.kind === 'caution' && step.if === null && step.caution === about.caution))
    return [];
  return placed(
    ...([subject, steps[Math.max(first, 0)]!, []] as const),
    `the block of ${about.sign} asks before it says "${about.caution}"`,
    `begin the block with \`caution: ${about.caution}\`: answers lead to it too, not only words`,
  );
}
