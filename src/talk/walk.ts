/** Walks: recorded conversations beside a flow. Played through the real decisions, they must come out as written. Pure. */
import { z } from 'zod';
import { fold } from '#engine/fold.ts';
import { type NameKind, SIGNS } from '#engine/schema.ts';
import { flowFor, type Knowledge } from './knowledge.ts';
import { type Rehearsal, rehearse } from './rehearse.ts';

const at = z
  .string()
  .describe('The step that must be open: its id, behind the blocks it is in, as in data-first.files.');
const said = z.union([
  z.strictObject({ at, say: z.string().describe('What was typed.') }),
  z.strictObject({ at, press: z.string().describe('The id of the answer that was pressed.') }),
  z.strictObject({
    at,
    word: z.enum(['back', 'again', 'person', 'stop']).describe('A standing word pressed.'),
  }),
]);

export const walks = z.array(
  z
    .strictObject({
      walk: z.string().min(1).describe('What happens in it, in a few words.'),
      opening: z
        .string()
        .min(1)
        .optional()
        .describe("The person's first words; a walk of a desk flow begins without."),
      begins: z.string().startsWith('desk-').optional().describe('The desk flow that a technician begins.'),
      says: z.array(said).describe('What the person says, question by question.'),
      cautions: z
        .array(z.string().meta({ names: 'caution' satisfies NameKind }))
        .optional()
        .describe('Cautions that must have been given.'),
      unsaid: z
        .array(z.string().meta({ names: 'caution' satisfies NameKind }))
        .optional()
        .describe('Cautions that must not have been given.'),
      signs: z.array(z.enum(SIGNS)).optional().describe('Signs that must stand at the end.'),
      ends: z
        .enum(['fixed', 'escalated', 'known-outage', 'not-storage', 'left', 'done'])
        .describe('How it must end. escalated: with a ticket. left: the person stopped.'),
      fault: z
        .string()
        .meta({ names: 'fault' satisfies NameKind })
        .optional()
        .describe('The fault that it must turn out to be.'),
      reads: z
        .string()
        .min(1)
        .optional()
        .describe('Words that must stand in the reason of the hand-over, or in the result of a desk flow.'),
      ticket: z
        .strictObject({
          priority: z.enum(['critical', 'high', 'medium', 'low']).optional(),
          keep: z.enum(['off', 'on', 'as-it-is', 'as-usual']).optional(),
        })
        .optional()
        .describe('What the ticket must say: its priority, and what to do with the power.'),
    })
    .refine(
      ({ opening, begins }) => (opening === undefined) !== (begins === undefined),
      'a walk has an opening, or begins a desk flow',
    ),
);
export type Walk = z.infer<typeof walks>[number];

export interface Departure {
  /** Place inside the walk, for its line. */
  path: (string | number)[];
  message: string;
}

/** The first departure, or null when everything came out as written. */
export function playWalk(knowledge: Knowledge, walk: Walk): Departure | null {
  const rehearsal = rehearse(knowledge);
  if (walk.begins !== undefined) begin(rehearsal, walk.begins);
  else rehearsal.say(walk.opening ?? '');
  for (const [index, said] of walk.says.entries()) {
    const open = rehearsal.question();
    // Asked only where the opening leaves it open, which hearing may come to do without.
    const told = said.at === '@symptom' && 'press' in said && said.press === symptomOf(rehearsal);
    if (told && open?.step !== said.at) continue;
    if (open?.step !== said.at) {
      return {
        path: ['says', index],
        message: `the open question is ${nameOf(rehearsal)}, not "${said.at}"`,
      };
    }
    const before = rehearsal.conversation().entries.length;
    if ('say' in said) rehearsal.say(said.say);
    else if ('press' in said) rehearsal.press(said.press);
    else {
      const { identity, at, address } = {
        identity: `word:${index}`,
        at: rehearsal.now(),
        address: rehearsal.conversation().address,
      };
      rehearsal.take({ kind: 'always', what: said.word, identity, at, address });
    }
    const last = rehearsal.conversation().entries.at(-1);
    if (last?.kind === 'missed' || rehearsal.conversation().entries.length === before) {
      const answers = open.answers.map(({ id }) => id).join(', ');
      return {
        path: ['says', index],
        message: `that was not understood at "${said.at}"${answers === '' ? '' : `; its answers are: ${answers}`}`,
      };
    }
  }
  return endOf(knowledge, walk, rehearsal);
}

const symptomOf = (rehearsal: Rehearsal): string | null => rehearsal.conversation().symptom;

export function begin(rehearsal: Rehearsal, topic: string): void {
  const { address } = rehearsal.conversation();
  rehearsal.take({ kind: 'begin', topic, work: null, identity: 'begin', at: rehearsal.now(), address });
}

function endOf(knowledge: Knowledge, walk: Walk, rehearsal: Rehearsal): Departure | null {
  const conversation = rehearsal.conversation();
  const { outcome, fault, entries } = conversation;
  const script = flowFor(knowledge, conversation.symptom)?.script ?? null;
  const { state } = fold(script, entries);
  if (outcome !== walk.ends) {
    const open = outcome === null ? `; the open question is ${nameOf(rehearsal)}` : '';
    return { path: ['ends'], message: `it ended ${outcome ?? 'not at all'}${open}` };
  }
  if (walk.fault !== undefined && fault !== walk.fault) {
    const unknown = walk.fault in knowledge.catalogue.faults ? '' : `; there is no fault "${walk.fault}"`;
    return { path: ['fault'], message: `the fault was ${fault ?? 'none'}${unknown}` };
  }
  const missing = walk.cautions?.find(id => !state.cautions.includes(id));
  if (missing !== undefined) return { path: ['cautions'], message: `the caution "${missing}" was not given` };
  const given = walk.unsaid?.find(id => state.cautions.includes(id));
  if (given !== undefined) return { path: ['unsaid'], message: `the caution "${given}" was given` };
  const text = state.outcome?.text ?? '';
  if (walk.reads !== undefined && !text.includes(walk.reads)) {
    return { path: ['reads'], message: `the reason is "${text.slice(0, 60)}"` };
  }
  const unraised = walk.signs?.find(sign => !state.signs.includes(sign));
  if (unraised !== undefined) return { path: ['signs'], message: `the sign "${unraised}" does not stand` };
  const ticket = rehearsal.ticket();
  if (walk.ticket?.priority !== undefined && ticket?.priority !== walk.ticket.priority) {
    return {
      path: ['ticket'],
      message: `the priority is ${ticket?.priority ?? 'none'}: ${ticket?.ticket.why ?? ''}`,
    };
  }
  const keep = ticket?.ticket.keep ?? 'as-usual';
  if (walk.ticket?.keep !== undefined && keep !== walk.ticket.keep) {
    return { path: ['ticket'], message: `power is to be kept: ${keep}` };
  }
  return null;
}

const nameOf = (rehearsal: Rehearsal): string => {
  const open = rehearsal.question();
  return open === null ? 'none' : `"${open.step}" (${open.text.slice(0, 60)})`;
};
