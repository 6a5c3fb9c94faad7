import { isQuestionStep } from '#engine/advance.ts';
import type { Catalogue } from '#engine/catalogue.ts';
import { leadsTo } from '../../alarms.ts';
import { COPY, COPY_SEEN, FAILING, isAboutArray, NOISE, STRONG_BITS } from '../../names.ts';
import type { PlacedTrouble, Rule, Subject } from '../../rule.ts';
import { segmentSteps } from '../../written.ts';

export const rule: Rule = {
  name: 'evidence-agrees',
  proves:
    'Signs agree with the evidence: what speaks strongly for a failing drive raises one, and one goes away only by what speaks against it.',

  together: (subjects, catalogue) =>
    subjects
      .filter(({ desk }) => !desk)
      .flatMap(subject => [
        ...overlooked(subject, catalogue),
        ...worked(subject, catalogue),
        ...silent(subject, catalogue),
        ...crossed(subject, catalogue),
        ...cleared(subject, catalogue),
      ]),
};

/** Of an array one member may fail; more than that is no longer one. */
const CERTAIN_BITS = 3;

/** Answers that speak strongly for a failing drive, raise nothing, and lead to no question that would. */
function overlooked(subject: Subject, { faults, interrupts }: Catalogue): PlacedTrouble[] {
  const { script, compiled } = subject;
  const blocks = Object.values(interrupts).map(({ block }) => block);
  const strong = isAboutArray(script) ? CERTAIN_BITS : STRONG_BITS;
  const segments = [script.main, ...Object.values(script.interrupts).map(({ steps }) => steps)];
  return segments.flatMap(steps =>
    steps.flatMap((step, index) => {
      // What the noise itself tells is weighed with where it comes from; see quiet-after-mechanical.
      if (!isQuestionStep(step) || step.finding === NOISE) return [];
      const origin = compiled.origins[step.id]!;
      const at = (answer: string, message: string): PlacedTrouble => ({
        ...{ flow: script.symptom, unit: origin.unit, path: [...origin.path, 'evidence', answer], message },
        remedy: `let "${answer}" raise suspect, or speak less strongly`,
      });
      return Object.entries(step.after).flatMap(([answer, { raises, evidence }]) => {
        const fault = Object.keys(evidence.for).find(
          each => faults[each]?.failing && evidence.for[each]! >= strong,
        );
        if (fault === undefined) return [];
        if (raises.length === 0) {
          const later = steps.slice(index + 1);
          if (blocks.some(block => leadsTo(block, step, answer, later, compiled))) return [];
          return [at(answer, `"${answer}" speaks strongly for ${fault} and raises no sign`)];
        }
        const unsure = step.after['not-sure'];
        if (step.kind !== 'ask' || step.form !== 'yes-no' || unsure === undefined || unsure.raises.length > 0)
          return [];
        return [
          at('not-sure', `"${answer}" speaks strongly for ${fault}, and who is not sure raises nothing`),
        ];
      });
    }),
  );
}

/** A verdict that speaks strongly for a failing drive raises a sign, as an answer would. */
function worked({ script, compiled }: Subject, { faults }: Catalogue): PlacedTrouble[] {
  return segmentSteps(script)
    .filter(step => step.kind === 'work')
    .flatMap(({ id, verdicts }) => {
      const origin = compiled.origins[id]!;
      return Object.entries(verdicts)
        .filter(([, { raises }]) => raises.length === 0)
        .flatMap(([verdict, { evidence }]) => {
          const fault = Object.keys(evidence.for).find(
            each => faults[each]?.failing && evidence.for[each]! >= STRONG_BITS,
          );
          if (fault === undefined) return [];
          return [
            {
              ...{ flow: script.symptom, unit: origin.unit, path: [...origin.path, 'evidence', verdict] },
              message: `the verdict "${verdict}" speaks strongly for ${fault} and raises no sign`,
              remedy: `let "${verdict}" raise hardware-failure or suspect, or speak less strongly`,
            },
          ];
        });
    });
}

/** Words of an answer by which a drive is dying, or gone from its array. Common practice, no source. */
const DYING =
  /\b(?:click(?:s|ing)|grind(?:s|ing)|scrap(?:es|ing)|knocking|starts again|drive failed|degraded|rebuilding|wear|one is red)\b/;

/** Where evidence is weighed at all, such an answer speaks for a failing drive: the suspects on the ticket go by it. */
function silent({ script, compiled }: Subject, { faults }: Catalogue): PlacedTrouble[] {
  return segmentSteps(script)
    .filter(isQuestionStep)
    .filter(({ after }) => Object.values(after).some(({ evidence }) => Object.keys(evidence.for).length > 0))
    .flatMap(({ id, answers, after }) => {
      const origin = compiled.origins[id]!;
      return answers
        .filter(answer => DYING.test(answer.label.toLowerCase()))
        .filter(answer => !Object.keys(after[answer.id]!.evidence.for).some(fault => faults[fault]?.failing))
        .map(answer => ({
          ...{ flow: script.symptom, unit: origin.unit, path: [...origin.path, 'answers', answer.id] },
          message: `"${answer.label}" speaks for no fault by which a drive is failing`,
          remedy: 'give it evidence for one, or word it otherwise',
        }));
    });
}

/** Two answers to one question were swapped: the one that speaks against a failing drive raises a sign, the other none. */
function crossed({ script, compiled }: Subject, { faults }: Catalogue): PlacedTrouble[] {
  const sum = (weights: Record<string, number>) =>
    Object.entries(weights).reduce((all, [fault, bits]) => all + (faults[fault]?.failing ? bits : 0), 0);
  return segmentSteps(script)
    .filter(isQuestionStep)
    .flatMap(({ id, after }) => {
      const all = Object.entries(after).map(([answer, { raises, evidence }]) => ({
        ...{ answer, quiet: raises.length === 0, bits: sum(evidence.for) - sum(evidence.against) },
      }));
      const silent = all.find(({ quiet, bits }) => quiet && bits > 0);
      const raising = all.find(({ quiet, bits }) => !quiet && bits < 0);
      if (silent === undefined || raising === undefined) return [];
      const origin = compiled.origins[id]!;
      return [
        {
          ...{ flow: script.symptom, unit: origin.unit, path: [...origin.path, 'raises', raising.answer] },
          message: `"${raising.answer}" speaks against a failing drive and raises a sign, "${silent.answer}" speaks for one and raises none`,
          remedy: 'swap what they raise, or what they speak for',
        },
      ];
    });
}

/** A sign goes away by a test that worked, or by an answer that speaks against a failing drive. */
function cleared({ script, compiled }: Subject, { faults }: Catalogue): PlacedTrouble[] {
  return segmentSteps(script)
    .filter(isQuestionStep)
    .flatMap(({ id, kind, after }) => {
      const origin = compiled.origins[id]!;
      return Object.entries(after).flatMap(([answer, { clears, evidence, sets }]): PlacedTrouble[] => {
        const at = (message: string, remedy: string): PlacedTrouble => ({
          ...{ flow: script.symptom, unit: origin.unit, path: [...origin.path, 'clears', answer] },
          ...{ message, remedy },
        });
        const shown =
          kind === 'try'
            ? answer === 'fixed' || answer === 'done'
            : Object.keys(evidence.against).some(fault => fault === FAILING || faults[fault]?.failing);
        const unfounded = shown ? undefined : clears.find(sign => sign !== 'only-copy');
        return [
          ...(unfounded === undefined
            ? []
            : [
                at(
                  `"${answer}" clears ${unfounded}, and nothing shows that the drive is well`,
                  'clear it with a test that worked, or say as evidence what the answer speaks against',
                ),
              ]),
          ...(clears.includes('only-copy') && sets[COPY] !== COPY_SEEN
            ? [
                at(
                  `"${answer}" clears only-copy, and no copy was seen`,
                  `clear it only where "${COPY}" is ${COPY_SEEN}`,
                ),
              ]
            : []),
        ];
      });
    });
}
