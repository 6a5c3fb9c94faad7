import { FIELD_TABLE, FIELDS, type Field } from '#engine/fields.ts';
import { ASKED_IN_DANGER, DID, MESSAGE, NEEDED_IN_DANGER } from '../../names.ts';
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

  ended({ step, view, by, desk, segment }) {
    if (desk || by !== 'flow' || step.kind !== 'hand-over') return null;
    const danger = view.sign('danger');
    const missing = (danger ? NEEDED_IN_DANGER : ALWAYS).filter((field: Field) => !view.filled(field));
    // What it showed, word for word, is the first thing that a technician would ask.
    const showed = !danger && segment === 'main' && view.is(DID, MESSAGE) && !view.sign('attack');
    if (showed && !view.filled('message')) missing.push('message');
    if (missing.length === 0) return null;
    return {
      message: `a hand-over without asking: ${missing.join(', ')}`,
      remedy: 'visit the block that asks for it on this way, or let a question here fill it (`fills`)',
    };
  },
};
