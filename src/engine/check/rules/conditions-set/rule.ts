import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  name: 'conditions-set',
  proves: 'A condition reads only findings that are set on every path to it.',
  unset: ({ finding }) => ({
    path: ['if'],
    message: `the condition reads "${finding}", which nothing has set on this way`,
    remedy: `ask for "${finding}" on every way that leads here, or put a finding before it that tells the ways apart`,
  }),
};
