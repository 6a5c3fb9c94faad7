import type { Question } from '#engine/script.ts';
import { DATA_WORDS, DRIVE_IDENTIFIED, FULL_DRIVES_OUT } from '../../names.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  name: 'no-format',
  proves:
    'Only the desk initialises or formats, once it knows which drive; people whose system offers either are told to press Cancel.',

  opened({ step, view, desk }) {
    if (step.kind === 'try' && (step.touches.includes('initialise') || step.touches.includes('format'))) {
      if (!desk) {
        return {
          path: ['touches'],
          message: 'a person is told to initialise or format a drive',
          remedy: 'hand over; this is a step for the desk',
        };
      }
      const missing = [DRIVE_IDENTIFIED, FULL_DRIVES_OUT].find(finding => !view.is(finding, 'yes'));
      if (missing === undefined) return null;
      return {
        path: ['touches'],
        message: `a drive is initialised or formatted before "${missing}"`,
        remedy: `ask for "${missing}" before, and go on only with yes`,
      };
    }
    if (desk || !offers(step) || view.said(DATA_WORDS)) return null;
    return {
      message: 'a system that offers to format is spoken of before the person was told to press Cancel',
      remedy: `say "${DATA_WORDS}" before this question`,
    };
  },

  together: (subjects, { cautions }) => {
    const words = cautions[DATA_WORDS]?.text;
    if (words === undefined || /\bcancel\b/i.test(words)) return [];
    return [
      {
        flow: subjects[0]?.script.symptom ?? '',
        unit: 'catalogue/cautions.yaml',
        path: [DATA_WORDS, 'text'],
        message: 'the words that protect the data do not say to press Cancel',
        remedy: 'say so: a system may offer to format or initialise at any moment',
      },
    ];
  },
};

/** A question or an answer that speaks of an offer to format or initialise. */
const offers = ({ text, answers }: Question): boolean =>
  [text, ...answers.map(({ label }) => label)].some(words => /\b(format|initiali[sz]e)/i.test(words));
