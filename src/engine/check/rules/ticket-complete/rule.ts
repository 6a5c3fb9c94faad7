import { isQuestionStep } from '#engine/advance.ts';
import { FIELD_TABLE, FIELDS, type Field } from '#engine/fields.ts';
import type { AskStep, Script, TryStep } from '#engine/script.ts';
import {
  ASKED_IN_DANGER,
  DEVICE,
  DID,
  isAboutArray,
  isAboutLostFiles,
  isAboutShare,
  MESSAGE,
  NEEDED_IN_DANGER,
  POWER,
  PROFILE,
  RANKED_BY,
  THING,
  TOLD_BY,
} from '../../names.ts';
import type { Rule, Trouble } from '../../rule.ts';
import type { View } from '../../view.ts';
import { segmentSteps } from '../../written.ts';

const ALWAYS = FIELDS.filter(field => FIELD_TABLE[field].always);

export const rule: Rule = {
  name: 'ticket-complete',
  proves:
    'A scripted hand-over leaves no field of the ticket unasked, its priority knows the answers, and what is asked for a field fills it; after a danger only where and how to reach is asked.',

  opened({ step, view }) {
    if (!view.sign('danger') || step.fills.some(field => ASKED_IN_DANGER.includes(field))) return null;
    return {
      message: 'after a danger this is asked all the same',
      remedy: `ask only where they are and how to reach them (${ASKED_IN_DANGER.join(', ')}), then hand over`,
    };
  },

  flow({ script, desk }) {
    if (desk) return [];
    return segmentSteps(script)
      .filter(isQuestionStep)
      .filter(step => step.kind === 'ask' || step.effect === 'none')
      .flatMap(unfilled);
  },

  ended({ script, step, view, by, desk, segment }) {
    if (desk || by !== 'flow' || step.kind !== 'hand-over') return null;
    const danger = view.sign('danger');
    const missing = (danger ? NEEDED_IN_DANGER : ALWAYS).filter((field: Field) => !view.filled(field));
    // What it showed, word for word, is the first thing that a technician would ask.
    const showed = !danger && segment === 'main' && view.is(DID, MESSAGE) && !view.sign('attack');
    if (showed && !view.filled('message')) missing.push('message');
    if (missing.length === 0)
      return danger || segment !== 'main' ? null : (unranked(script, view) ?? unnamed(script, view));
    return {
      message: `a hand-over without asking: ${missing.join(', ')}`,
      remedy: 'visit the block that asks for it on this way, or let a question here fill it (`fills`)',
    };
  },
};

/** What was found out stands on the ticket: else it says that nobody asked. A start tells of more than it asks. */
const unfilled = (step: AskStep | TryStep): Trouble[] =>
  Object.entries(TOLD_BY).flatMap(([field, told]) => {
    const tells = step.finding === told || Object.values(step.after).every(({ sets }) => told in sets);
    const recorded = step.kind === 'ask' ? Object.keys(step.records ?? {}) : [];
    if (!tells || [...step.fills, ...recorded].includes(field as Field)) return [];
    return [
      {
        ...{ step: step.id, path: ['fills'] },
        message: `every answer settles "${told}", and "${field}" stays empty on the ticket`,
        remedy: `add fills: ${field}`,
      },
    ];
  });

/** A field counts as answered, and the finding that the ticket goes by was not set with it. */
function unranked(script: Script, view: View): Trouble | null {
  // An array is left as it is, on or off; of a share the device is known.
  const power = isAboutArray(script) ? {} : { 'power.now': POWER };
  const device = isAboutShare(script) ? {} : { 'device.kind': DEVICE };
  const all = { ...RANKED_BY, ...power, ...device };
  const lost = Object.entries(all).find(
    ([field, finding]) => finding in script.findings && view.filled(field as Field) && !view.isSet(finding),
  );
  if (lost === undefined) return null;
  const [field, finding] = lost;
  return {
    message: `"${field}" was answered and "${finding}" is not set: the ticket cannot tell it`,
    remedy: `let every answer that fills "${field}" set "${finding}"`,
  };
}

/** Who wants files back can say which, and when they were last there; all of a desktop at once nobody can name. */
function unnamed(script: Script, view: View): Trouble | null {
  if (!isAboutLostFiles(script) || view.filled('history.last-good') || view.is(THING, PROFILE)) return null;
  return {
    message: 'files are wanted back, and nobody asked which and when they were last there',
    remedy: 'visit the block which-files before',
  };
}
