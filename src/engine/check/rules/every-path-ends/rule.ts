import { MOST_QUESTIONS } from '../../names.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  name: 'every-path-ends',
  proves: `Every path ends as the flow says, within ${MOST_QUESTIONS} questions, a word for danger at the worst moment included.`,

  ended({ by }) {
    if (by !== 'nothing') return null;
    return {
      message: 'after this step the flow just stops',
      remedy: 'end it with a hand_over, or send this way on to a step that ends',
    };
  },

  flow({ figures: { longest, longestInterrupted, trail } }) {
    if (longest > MOST_QUESTIONS) {
      return [
        {
          message: `a path has ${longest} questions, more than ${MOST_QUESTIONS}`,
          remedy: 'leave out what this case does not need, or hand over earlier',
          trail: trail.slice(0, MOST_QUESTIONS),
        },
      ];
    }
    if (longestInterrupted > MOST_QUESTIONS) {
      return [
        {
          message: `with one interrupt a path has ${longestInterrupted} questions, more than ${MOST_QUESTIONS}`,
          remedy: 'shorten the flow, or the block that the interrupt leads to',
          trail,
        },
      ];
    }
    return [];
  },
};
