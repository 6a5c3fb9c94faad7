import { FIELD_TABLE, FIELDS, type Field } from '#engine/fields.ts';
import type { Script } from '#engine/script.ts';
import { ASKED_IN_DANGER, DID, MESSAGE, NEEDED_IN_DANGER, RANKED_BY } from '../../names.ts';
import type { Rule, Trouble } from '../../rule.ts';
import type { View } from '../../view.ts';

const ALWAYS = FIELDS.filter(field => FIELD_TABLE[field].always);

export const rule: Rule = {
  name: 'ticket-complete',
  proves:
    'A scripted hand-over leaves no field of the ticket unasked, and its priority knows the answers; after a danger only where and how to reach is asked.',

  opened({ step, view }) {
    if (!view.sign('danger') || step.fills.some(field => ASKED_IN_DANGER.includes(field))) return null;
    return {
      message: 'after a danger this is asked all the same',
      remedy: `ask only where they are and how to reach them (${ASKED_IN_DANGER.join(', ')}), then hand over`,
    };
  },

  ended({ script, step, view, by, desk, segment }) {
    if (desk || by !== 'flow' || step.kind !== 'hand-over') return null;
    const danger = view.sign('danger');
    const missing = (danger ? NEEDED_IN_DANGER : ALWAYS).filter((field: Field) => !view.filled(field));
    // What it showed, word for word, is the first thing that a technician would ask.
    const showed = !danger && segment === 'main' && view.is(DID, MESSAGE) && !view.sign('attack');
    if (showed && !view.filled('message')) missing.push('message');
    if (missing.length === 0) return danger || segment !== 'main' ? null : unranked(script, view);
    return {
      message: `a hand-over without asking: ${missing.join(', ')}`,
      remedy: 'visit the block that asks for it on this way, or let a question here fill it (`fills`)',
    };
  },
};

/** A field counts as answered, and what the priority is worked out from was not set with it. */
function unranked({ findings }: Script, view: View): Trouble | null {
  const lost = Object.entries(RANKED_BY).find(
    ([field, finding]) => finding in findings && view.filled(field as Field) && !view.isSet(finding),
  );
  if (lost === undefined) return null;
  const [field, finding] = lost;
  return {
    message: `"${field}" was answered and "${finding}" is not set: the priority does not know it`,
    remedy: `let every answer that fills "${field}" set "${finding}"`,
  };
}
