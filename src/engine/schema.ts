/** The shape of a flow.yaml and a block.yaml, as a desk lead writes them. Errors carry a path; library/ turns it into file and line. */
import { z } from 'zod';
import { FIELDS } from './fields.ts';

const ID = /^[a-z][a-z0-9]*(-[a-z0-9]+)*$/;
export const id = z
  .string()
  .regex(ID, 'use small letters, digits and single hyphens, starting with a letter, such as "which-noise"');

const text = z.string().trim().min(1, 'write the words that the person will read').max(1500);
const phrases = z.array(z.string().trim().min(1)).min(1);

/** What a finding changes about what may be said next. `no` until raised. */
export const SIGNS = ['danger', 'attack', 'mechanical', 'suspect', 'hardware-failure', 'only-copy'] as const;
export type Sign = (typeof SIGNS)[number];
const sign = z.enum(SIGNS);

/** Flows for technicians, such as `desk-bench`. */
export const isDeskTopic = (symptom: string | null): boolean => symptom?.startsWith('desk-') === true;

/** What a step does to the drive, gentlest first. */
export const EFFECTS = ['none', 'start', 'read', 'write'] as const;
export type Effect = (typeof EFFECTS)[number];

/**
 * What a step lays hands on, where that needs more care than its effect tells. Each has its rule in check/rules:
 * `case` opens a machine, `inside-cable` and `module` are handled inside it, `move-drive` puts a drive into another machine.
 */
export const TOUCHES = [
  'case',
  'inside-cable',
  'module',
  'move-drive',
  'power-supply',
  'listen',
  'firmware-look',
  'firmware-settings',
  'firmware-update',
  'security-chip',
  'initialise',
  'format',
  'hot-swap',
  'array-member',
  'array-reseat',
  'array-rebuild',
  'array-start',
  'array-check',
  'own-stick',
] as const;
export type Touch = (typeof TOUCHES)[number];

/** `{ noise: [clicking, grinding], inside: yes }` holds when every finding has one of its values; read left to right, stopping at the first that fails. */
export type Condition =
  | { all: Condition[] }
  | { any: Condition[] }
  | { not: Condition }
  | { [finding: string]: string | string[] };

const value = z.union([z.string(), z.boolean()]).transform(yesNo);
const findingName = z
  .string()
  .regex(/^(policy\.)?[a-z][a-z0-9-]*$/, 'a finding is named like a step, or policy.NAME');
export const condition: z.ZodType<Condition> = z.lazy(() =>
  z.union([
    z.strictObject({ all: z.array(condition).min(1) }),
    z.strictObject({ any: z.array(condition).min(1) }),
    z.strictObject({ not: condition }),
    z.record(findingName, z.union([value, z.array(value).min(1)])),
  ]),
) as z.ZodType<Condition>;

/** YAML 1.1 editors and readers may turn a bare yes or no into a truth value; both mean the answer. */
function yesNo(given: string | boolean): string {
  return given === true ? 'yes' : given === false ? 'no' : given;
}

const perAnswer = <T extends z.ZodType>(of: T) => z.record(id, of);
const weights = z.record(id, z.number().min(0.5).max(4));
const evidence = z.strictObject({ for: weights.optional(), against: weights.optional() });

const common = {
  id: id.optional(),
  if: condition.optional(),
};

const effects = {
  /** Signs that an answer raises, or clears (`hardware-failure` is never cleared). */
  raises: perAnswer(z.array(sign).min(1)).optional(),
  clears: perAnswer(z.array(z.enum(['suspect', 'mechanical', 'only-copy'])).min(1)).optional(),
  /** Further findings that an answer settles. */
  sets: perAnswer(z.record(id, value)).optional(),
  /** Bits (1 to 3) for and against faults. Common practice, to be corrected by closed tickets. */
  evidence: perAnswer(evidence).optional(),
  /** A later step of the same file to go on with, or `return` to leave the block. */
  goes: perAnswer(id).optional(),
  /** Cautions said with this step, before it. */
  cautions: z.array(id).min(1).optional(),
  /** What to say when the person asks back ("which port do you mean?"). */
  help: text.optional(),
};

export const askStep = z.strictObject({
  ...common,
  ...effects,
  id,
  ask: text,
  /** Default: choice where answers are given (yes-no when they are yes and no), else text. */
  kind: z.enum(['choice', 'text', 'number', 'photo']).optional(),
  /** Answer id to label, in the order shown. */
  answers: z.record(id, z.string().trim().min(1).max(75)).optional(),
  /** Instead of `answers`: the organisation's own list, from site.yaml. */
  answers_from: z.enum(['sites']).optional(),
  /** Further ways to say an answer, beside its label. */
  hears: perAnswer(phrases).optional(),
  /** Phrases that already give this answer when they stand in the opening. Precise ones only: a wrong guess is worse than a question. */
  opening: perAnswer(phrases).optional(),
  /** Name of the finding; the step's id unless given. */
  as: id.optional(),
  /** Ticket field or fields that the answer fills. */
  fills: z.union([z.enum(FIELDS), z.array(z.enum(FIELDS)).min(1)]).optional(),
  /** A text, number or photo that may be skipped. */
  optional: z.boolean().optional(),
  unit: z.string().max(20).optional(),
  minimum: z.number().optional(),
  maximum: z.number().optional(),
});

export const tryStep = z.strictObject({
  ...common,
  ...effects,
  id,
  try: text,
  effect: z.enum(EFFECTS),
  touches: z.array(z.enum(TOUCHES)).min(1).optional(),
  minutes: z.number().positive().max(240),
  /** The fault that is confirmed when it works. Without it the step is only done or not done. */
  fixed: id.optional(),
  /** The question that shows whether it worked. */
  works: text.optional(),
  fills: z.enum(FIELDS).optional(),
});

export const sayStep = z.strictObject({ ...common, say: text });
export const cautionStep = z.strictObject({ ...common, caution: id });
export const visitStep = z.strictObject({ ...common, visit: id });
export const handOverStep = z.strictObject({
  ...common,
  hand_over: z.strictObject({
    /** Why, in words for the person and the ticket. */
    because: text.optional(),
    /** What to do with the power until someone comes. */
    keep: z.enum(['off', 'on', 'as-it-is']).optional(),
  }),
});
/** `not-storage`: somebody else's matter. `done`: the work of a desk flow is finished; `say` is the result on the ticket. */
export const endStep = z.strictObject({
  ...common,
  end: z.enum(['not-storage', 'done']),
  say: text.optional(),
});

export const step = z.union([askStep, tryStep, sayStep, cautionStep, visitStep, handOverStep, endStep]);
export type FlowStep = z.infer<typeof step>;
export type AskStep = z.infer<typeof askStep>;
export type TryStep = z.infer<typeof tryStep>;

export const flow = z.strictObject({
  symptom: id,
  title: z.string().trim().min(1).max(120),
  steps: z.array(step).min(1).max(60),
});
export type Flow = z.infer<typeof flow>;

export const block = z.strictObject({
  block: id,
  /** What the block establishes, for the reader of the file. */
  about: z.string().trim().min(1),
  steps: z.array(step).min(1).max(40),
});
export type Block = z.infer<typeof block>;

/** The keyword by which a step is told from the others; used to say which kind was meant when one does not fit. */
export const STEP_KINDS = {
  ask: askStep,
  try: tryStep,
  visit: visitStep,
  hand_over: handOverStep,
  caution: cautionStep,
  end: endStep,
  say: sayStep,
} as const;
