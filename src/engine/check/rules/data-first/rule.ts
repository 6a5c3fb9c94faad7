import type { Script, Step, TryStep } from '#engine/script.ts';
import { COPY, COPY_SEEN, DATA_WORDS, isAboutLostFiles, STOP_WORDS } from '../../names.ts';
import type { Opened, Rule, Trouble } from '../../rule.ts';
import type { View } from '../../view.ts';
import { segmentSteps } from '../../written.ts';

export const rule: Rule = {
  name: 'data-first',
  proves:
    'Nothing starts or reads a suspect drive before the data question is settled and its words are said, nothing writes to it, and any other drive is started once at most before that.',

  opened(at) {
    const { step } = at;
    if (step.kind !== 'try' || step.effect === 'none') return null;
    return mayFail(at.view) ? onSuspect(step, at) : onOther(step, at.view);
  },

  ended({ script, segment, view, desk, by, step, outcome }) {
    if (desk || segment !== 'main' || !isAboutLostFiles(script) || by !== 'flow') return null;
    if (step.kind !== 'hand-over' || outcome.keep !== 'off' || SOONER.some(sign => view.sign(sign)))
      return null;
    return view.said(STOP_WORDS) ? null : UNTIL_THEN;
  },

  flow: ({ script }) => [...segmentSteps(script).flatMap(believed), ...unsaid(script)],
};

/** A yes, or what somebody only thinks, is no copy that was seen. */
const BELIEF =
  /^(?:yes|yeah|yep|sure|ja|oui|s[ií]|klar|of course|definitely|yes,? (?:yes|i have|in the backup))[.!]?$|\bmust be\b|\b(?:i think|i guess|i believe|should be|probably|maybe|perhaps|supposedly)\b/;

const LOOKED =
  /^(?!.*\b(?:never|not|haven['’]t|didn['’]t|without)\b).*\b(?:saw|seen|looked|checked|opened|see them|gesehen|nachgesehen|geprüft)\b/;

function believed(step: Step): Trouble[] {
  if (step.kind !== 'ask') return [];
  return step.answers.flatMap(({ id, label, hears }) => {
    if ((step.after[id]?.sets[COPY] ?? (step.finding === COPY ? id : '')) !== COPY_SEEN) return [];
    return [label, ...hears]
      .filter(words => BELIEF.test(words.toLowerCase()) && !LOOKED.test(words.toLowerCase()))
      .map(words => ({
        step: step.id,
        path: ['hears', id],
        message: `"${words}" counts as a copy that was seen`,
        remedy: 'hear it as believed: only who has looked knows of a copy',
      }));
  });
}

// What was deleted is there until something new is written over it.
const unsaid = (script: Script): Trouble[] =>
  !isAboutLostFiles(script) ||
  script.main.some(step => step.kind === 'caution' && step.caution === STOP_WORDS)
    ? []
    : [
        {
          step: script.main[0]!.id,
          message: `files are lost, and nobody hears the words of "${STOP_WORDS}": save nothing on it`,
          remedy: `say "${STOP_WORDS}" as soon as it is known that they lay on a drive of their own`,
        },
      ];

/** These ended it before anybody spoke of lost files. */
const SOONER = ['danger', 'attack', 'mechanical'] as const;

const UNTIL_THEN: Trouble = {
  path: ['hand_over', 'keep'],
  message: `lost files lie on what is switched off in the end, and until then nobody heard "${STOP_WORDS}"`,
  remedy: `say "${STOP_WORDS}" as soon as it is known that they lay on a drive of their own`,
};

const mayFail = (view: View): boolean =>
  view.sign('hardware-failure') || view.sign('mechanical') || view.sign('suspect');

const settled = (view: View): boolean => view.isSet(COPY) && view.said(DATA_WORDS);

function onSuspect({ effect }: TryStep, { view, desk }: Opened): Trouble | null {
  if (effect === 'write' && !desk) {
    return {
      path: ['effect'],
      message: 'this writes to a drive that may be failing',
      remedy: 'leave it to the desk: hand over instead, or let the step stand only where { suspect: "no" }',
    };
  }
  if (settled(view)) return null;
  const missing = view.said(DATA_WORDS)
    ? `asking where else the files are ("${COPY}")`
    : `the words of "${DATA_WORDS}"`;
  return {
    path: ['effect'],
    message: `a drive that may be failing is ${PAST[effect]} before ${missing}`,
    remedy: 'visit the block data-first before this step, or let the step stand only where { suspect: "no" }',
  };
}

const PAST = { none: 'left alone', start: 'started', read: 'read', write: 'written to' } as const;

function onOther({ effect }: TryStep, view: View): Trouble | null {
  if (effect !== 'start' || settled(view) || !view.started()) return null;
  return {
    path: ['effect'],
    message: 'a second start before the data question is settled',
    remedy: 'visit the block data-first between the two starts',
  };
}
