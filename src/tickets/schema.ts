/** The structured escalation, versioned. What a technician needs is on it, or it says why it is not. */
import { z } from 'zod';
import { FIELD_TABLE, FIELDS, type Field } from '#engine/fields.ts';
import { EFFECTS, SIGNS } from '#engine/schema.ts';

/** Most urgent first. */
export const PRIORITIES = ['critical', 'high', 'medium', 'low'] as const;
export type Priority = (typeof PRIORITIES)[number];
export const STATUSES = ['open', 'taken', 'waiting', 'closed', 'merged'] as const;
export type TicketStatus = (typeof STATUSES)[number];

/** The number as people say it. */
export const reference = (number: number): string => `R-${number}`;

/** Epoch milliseconds. */
const time = z.int().nonnegative();
const count = z.int().positive();

/** Why the person was never asked. `withdrawn`: the flow itself was broken off. */
export const NOT_ASKED = [
  'danger',
  'attack',
  'asked-for-a-person',
  'left',
  'stopped',
  'withdrawn',
  'sign',
] as const;
export type NotAsked = (typeof NOT_ASKED)[number];

const known = z.strictObject({
  state: z.literal('known'),
  /** As one reads it: the label, the number with its unit, or the text. */
  value: z.string(),
  /** Answer id, where it was one of several to choose from. */
  answer: z.string().nullable(),
  /** The person's own words. */
  words: z.string(),
});
const unknown = z.strictObject({ state: z.literal('unknown') }).describe('not known to the person');
const notAsked = z.strictObject({ state: z.literal('not-asked'), why: z.enum(NOT_ASKED) });
const notNeeded = z.strictObject({ state: z.literal('not-needed') }).describe('this case does not need it');

const always = z.discriminatedUnion('state', [known, unknown, notAsked]);
const perhaps = z.discriminatedUnion('state', [known, unknown, notAsked, notNeeded]);
export type FieldValue = z.infer<typeof perhaps>;
type Fields = {
  [F in Field]: (typeof FIELD_TABLE)[F]['always'] extends true ? typeof always : typeof perhaps;
};
const fields = z.strictObject(
  Object.fromEntries(FIELDS.map(field => [field, FIELD_TABLE[field].always ? always : perhaps])) as Fields,
);

const answered = z.strictObject({
  step: z.string(),
  question: z.string(),
  /** As one reads it. */
  answer: z.string(),
  id: z.string().nullable(),
  words: z.string(),
  at: time,
  /** Taken back later; kept, because what was said first may matter. */
  withdrawn: z.boolean(),
});

const tried = z.strictObject({
  step: z.string(),
  text: z.string(),
  effect: z.enum(EFFECTS),
  /** Answer id: fixed, no-change, done or could-not. */
  result: z.string(),
  shown: z.string(),
});

const suspect = z.strictObject({
  fault: z.string(),
  name: z.string(),
  /** 0 to 1; the shares of all suspects add up to 1. */
  share: z.number().min(0).max(1),
  hardware: z.boolean(),
  for: z.array(z.string()),
  against: z.array(z.string()),
});

const check = z.strictObject({
  check: z.string(),
  minutes: z.number().positive(),
  /** Must the case be open? */
  open: z.boolean(),
  effect: z.enum(EFFECTS),
  /** The faults that it looks for; none for a step that comes first for safety's sake. */
  looksFor: z.array(z.strictObject({ fault: z.string(), name: z.string() })),
});

const plan = z.strictObject({
  checks: z.array(check),
  /** Minutes until the fault is found, on average, if it is one of these; null without a check that looks for one. */
  expectedMinutes: z.number().nonnegative().nullable(),
  /** Checks that start, read or write the drive, kept back until it may be touched. */
  held: z.array(check),
  heldBecause: z.string().nullable(),
});

const attachment = z.strictObject({
  id: z.string(),
  name: z.string(),
  type: z.string(),
  bytes: z.int().nonnegative(),
});

export const ticket = z.strictObject({
  format: z.literal(1),
  number: count,
  reference: z.string().regex(/^R-\d+$/),
  openedAt: time,
  /** Null while questions are still being asked. */
  handedOverAt: time.nullable(),
  updatedAt: time,
  person: z.strictObject({
    id: z.string(),
    name: z.string().nullable(),
    mail: z.string().nullable(),
    channel: z.string(),
  }),
  symptom: z.string().nullable(),
  title: z.string(),
  /** The first words, as written. */
  opening: z.string(),
  /** The message on the screen, word for word, with its entry in the catalogue. */
  screen: z.strictObject({ id: z.string(), verbatim: z.string() }).nullable(),
  fields,
  answers: z.array(answered),
  tried: z.array(tried),
  findings: z.record(z.string(), z.string()),
  signs: z.array(z.enum(SIGNS)),
  /** What to do with the power until somebody comes. */
  keep: z.enum(['off', 'on', 'as-it-is']).nullable(),
  suspects: z.array(suspect),
  isHardware: z.enum(['yes', 'likely', 'unlikely', 'unknown']),
  impact: z.enum(['many', 'few', 'one']),
  urgency: z.enum(['high', 'medium', 'low']),
  priority: z.enum(PRIORITIES),
  /** Why this priority, in plain words. */
  why: z.string(),
  cautions: z.array(z.strictObject({ id: z.string(), text: z.string() })),
  plan,
  parts: z.array(z.string()),
  /** What was worked out from the answers, with its verdict. */
  worked: z.array(
    z.strictObject({ step: z.string(), working: z.string(), verdict: z.string(), says: z.array(z.string()) }),
  ),
  attachments: z.array(attachment),
  outage: z.string().nullable(),
  flow: z.strictObject({ symptom: z.string(), hash: z.string() }).nullable(),
  /** Null while questions are still being asked. */
  endedAs: z.enum(['fixed', 'escalated', 'known-outage', 'not-storage', 'left', 'done']).nullable(),
  endedBecause: z.enum(['script', 'asked-for-a-person', 'stopped', 'left', 'sign', 'withdrawn']).nullable(),
  /** The flow's own words for why it handed over. */
  endedWith: z.string().nullable(),
});
export type Ticket = z.infer<typeof ticket>;
export type Suspect = z.infer<typeof suspect>;
export type Plan = z.infer<typeof plan>;
export type PlannedCheck = z.infer<typeof check>;

const priority = z.enum(PRIORITIES);
const said = z.string().trim().min(1);
const entry = <K extends string, S extends z.ZodRawShape>(kind: K, shape: S) =>
  z.strictObject({ at: time, by: z.string(), kind: z.literal(kind), ...shape });

/** One line of a ticket's life. Only ever added to; status, holder and priority are a fold over them. */
export const lifeEntry = z.discriminatedUnion('kind', [
  entry('opened', {}),
  entry('taken', {}),
  entry('handed', { to: said }),
  entry('asked', { ask: z.string(), text: said }),
  entry('answered', { ask: z.string(), text: z.string() }),
  entry('note', { text: said }),
  /** `worked`: what the facts called for when somebody set another. */
  entry('priority', { priority, reason: z.string(), worked: priority }),
  entry('merged', { into: count }),
  entry('waiting', { until: time, reason: z.string() }),
  /** `fault` null: none of the catalogue's, told in `words`. */
  entry('closed', { fault: z.string().nullable(), words: z.string() }),
  entry('reopened', { reason: said }),
  /** The person went on, and what the desk may have read has changed. */
  entry('changed', {}),
]);
export type LifeEntry = z.infer<typeof lifeEntry>;

/** JSON Schema (draft 2020-12) of a ticket, for whoever reads tickets with another program. */
export const ticketJsonSchema = () => z.toJSONSchema(ticket);
