/** The open question of a conversation as a message: the script's own, or one of the standing ones that come before it. */
import { openStep } from '#engine/advance.ts';
import type { Always } from '#engine/entries.ts';
import type { Ask, Choice, Question } from '#engine/messages.ts';
import { remaining } from '#engine/remaining.ts';
import { isDeskTopic } from '#engine/schema.ts';
import type { Script } from '#engine/script.ts';
import type { Standing, State } from '#engine/state.ts';
import { reference } from '#tickets/schema.ts';
import { type Knowledge, titleOf } from './knowledge.ts';

/** What can be said at every question. Back only where there is something to take back. */
export function alwaysOf(state: State): Always[] {
  const back: Always[] = state.number > state.floor && state.opening !== '' ? ['back'] : [];
  return isDeskTopic(state.symptom) ? [...back, 'stop'] : [...back, 'again', 'person', 'stop'];
}

/** The question the person is asked now, or null after an outcome. */
export function questionOf(knowledge: Knowledge, script: Script | null, state: State): Question | null {
  const first = state.standing[0];
  if (first !== undefined) return standingQuestion(knowledge, script, state, first);
  if (state.outcome !== null) return null;
  const step = script === null ? null : openStep(script, state);
  if (step === null) return state.candidates.length > 0 ? whichSymptom(knowledge, state) : opening(state);
  const asked = {
    number: state.number,
    step: step.id,
    answers: step.answers.map(({ id, label }): Choice => ({ id, label })),
    help: step.help,
    always: alwaysOf(state),
    left: script === null ? null : remaining(script, state, longestOf(knowledge, script)),
  };
  if (step.kind === 'try') {
    const { text, effect, minutes, works } = step;
    return { ...asked, kind: 'try', text, effect, minutes, works };
  }
  const { form, text, optional, unit, minimum, maximum } = step;
  return { ...asked, kind: 'ask', form, text, optional, unit, minimum, maximum };
}

/** Of today's script, as proven at the start. */
const longestOf = (knowledge: Knowledge, script: Script): number | undefined =>
  Object.values(knowledge.flows).find(flow => flow.script === script)?.longest ?? undefined;

const standingAsk = (
  state: State,
  step: string,
  text: string,
  answers: Choice[],
  form: Ask['form'],
): Ask => ({
  kind: 'ask',
  number: state.number,
  step,
  form,
  text,
  answers,
  help: null,
  always: alwaysOf(state),
  left: null,
  optional: false,
  unit: null,
  minimum: null,
  maximum: null,
});

export const opening = (state: State): Ask => ({
  ...standingAsk(
    state,
    '@opening',
    'What is the problem? Write it as you would tell a colleague, with any message word for word.',
    [],
    'text',
  ),
  always: ['person', 'stop'],
});

function whichSymptom(knowledge: Knowledge, state: State): Ask {
  const answers = state.candidates.map(symptom => ({ id: symptom, label: titleOf(knowledge, symptom) }));
  return standingAsk(
    state,
    '@symptom',
    'Which of these is it closest to?',
    [...answers, { id: 'other', label: 'None of these' }],
    'choice',
  );
}

function standingQuestion(knowledge: Knowledge, script: Script | null, state: State, asked: Standing): Ask {
  switch (asked.step) {
    case '@outage':
      return standingAsk(
        state,
        asked.step,
        'Is that what you see?',
        [
          { id: 'same', label: "Yes, that's it" },
          { id: 'different', label: 'Mine is different' },
        ],
        'choice',
      );
    case '@returned':
      return standingAsk(
        state,
        asked.step,
        `You were telling me about: **${titleOf(knowledge, state.symptom)}**. Is that still what this is about?`,
        [
          { id: 'same', label: 'Yes, go on with it' },
          { id: 'solved', label: 'It has solved itself' },
          { id: 'new', label: 'It is something else now' },
        ],
        'choice',
      );
    case '@doubt':
      return standingAsk(
        state,
        asked.step,
        script?.interrupts[asked.interrupt]?.about.doubt ?? 'Is that happening now?',
        [
          { id: 'yes', label: 'Yes, or I am not sure' },
          { id: 'no', label: 'No' },
        ],
        'yes-no',
      );
    case '@photo':
      return standingAsk(
        state,
        asked.step,
        `Your photo seems to show: ${shownOn(asked.verbatim)}. Is that right?`,
        [
          { id: 'yes', label: 'Yes' },
          { id: 'no', label: "No, or I can't tell" },
        ],
        'yes-no',
      );
    case '@desk':
      return standingAsk(
        state,
        asked.step,
        `The desk asks about ${reference(asked.ticket)}: ${asked.text}`,
        [],
        'text',
      );
  }
}

/** As code, for its underscores belong to it. */
const shownOn = (verbatim: string) =>
  `\`${verbatim
    .replace(/[`\s]+/g, ' ')
    .trim()
    .slice(0, 200)}\``;

/** Further ways to say the answers of the standing questions. */
export const STANDING_HEARS: Record<string, Record<string, string[]>> = {
  '@outage': {
    same: ['yes', 'same', 'same here', 'me too', 'that is it', 'ja', 'oui', 'si'],
    different: ['no', 'different', 'something else', 'not that', 'nein', 'non'],
  },
  '@returned': {
    same: ['yes', 'still', 'same', 'still the same', 'go on', 'continue', 'ja', 'oui', 'si'],
    solved: ['solved', 'fixed', 'works now', 'it works', 'gone', 'no longer needed'],
    new: ['no', 'new', 'new problem', 'something else', 'another problem', 'different', 'nein', 'non'],
  },
  '@doubt': { yes: ['maybe', 'not sure', 'i think so', 'a bit'], no: ['it is fine', 'nothing like that'] },
  '@photo': {
    yes: ['right', 'correct', 'that is it'],
    no: ["can't tell", 'not sure', 'wrong', 'something else', 'skip'],
  },
  '@symptom': { other: ['none', 'none of these', 'neither', 'no', 'something else', 'other'] },
};
