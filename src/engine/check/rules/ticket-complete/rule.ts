import { FIELD_TABLE, FIELDS, type Field } from '#engine/fields.ts';
import { ASKED_IN_DANGER, NEEDED_IN_DANGER } from '../../names.ts';
import type { Rule } from '../../rule.ts';

const ALWAYS = FIELDS.filter(field => FIELD_TABLE[field].always);

export const rule: Rule = {
  name: 'ticket-complete',
  proves:
    'A scripted hand-over leaves no field of the ticket unasked; after a danger only where and how to reach is asked.',

  opened({ step, view }) {
    if (!view.sign('danger') || step.fills.some(field => ASKED_IN_DANGER.includes(field))) return null;
    return {
      message: 'after a danger this is asked all the same',
      remedy: `ask only where they are and how to reach them (${ASKED_IN_DANGER.join(', ')}), then hand over`,
    };
  },

  ended({ step, view, by, desk }) {
    if (desk || by !== 'flow' || step.kind !== 'hand-over') return null;
    const wanted = view.sign('danger') ? NEEDED_IN_DANGER : ALWAYS;
    const missing = wanted.filter((field: Field) => !view.filled(field));
    if (missing.length === 0) return null;
    return {
      message: `a hand-over without asking: ${missing.join(', ')}`,
      remedy: 'visit the block that asks for it on this way, or let a question here fill it (`fills`)',
    };
  },
};
