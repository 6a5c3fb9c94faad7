/**
 * The shape of a flow.yaml and a block.yaml, as a desk lead writes them. Errors carry a path; library/ turns it into file and
 * line, and what is described here is what an editor shows about a word (`reseat schema`).
 */
import { z } from 'zod';
import { FIELD_TABLE, FIELDS } from './fields.ts';

const ID = /^[a-z][a-z0-9]*(-[a-z0-9]+)*$/;
const ID_WORDS =
  'use small letters, digits and single hyphens, starting with a letter, such as "which-noise"';
export const id = z
  .string()
  .regex(ID, ID_WORDS)
  // Every object of the language has it.
  .refine(name => name !== 'constructor', 'this word has a meaning for the machine; write another')
  .meta({ patternErrorMessage: ID_WORDS });

/** Kinds of names that stand in the folder. An editor completes them; here any id fits, and the compiler looks it up. */
export type NameKind = 'symptom' | 'block' | 'fault' | 'caution' | 'policy' | 'finding';
export const named = (kind: NameKind) => id.meta({ names: kind });

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
const FINDING_WORDS = 'a finding is named like a step, or policy.NAME';
const findingName = z
  .string()
  .regex(/^(policy\.)?[a-z][a-z0-9-]*$/, FINDING_WORDS)
  .meta({ names: 'finding' satisfies NameKind, patternErrorMessage: FINDING_WORDS });
export const condition: z.ZodType<Condition> = z.lazy(() =>
  z.union([
    z.strictObject({ all: z.array(condition).min(1).describe('Holds when every one of these does.') }),
    z.strictObject({ any: z.array(condition).min(1).describe('Holds when at least one of these does.') }),
    z.strictObject({ not: condition }),
    z.record(findingName, z.union([value, z.array(value).min(1)])),
  ]),
) as z.ZodType<Condition>;
// Named in the editor's schema, where it refers to itself.
z.globalRegistry.add(condition, { id: 'condition' });

/** YAML 1.1 editors and readers may turn a bare yes or no into a truth value; both mean the answer. */
function yesNo(given: string | boolean): string {
  return given === true ? 'yes' : given === false ? 'no' : given;
}

const perAnswer = <T extends z.ZodType>(of: T) => z.record(id, of);
const weights = z.record(named('fault'), z.number().min(0.5).max(4));
const evidence = z.strictObject({
  for: weights
    .optional()
    .describe('Faults that it speaks for, each with bits from 1 (a little) to 3 (a lot).'),
  against: weights.optional().describe('Faults that it speaks against, each with bits from 1 to 3.'),
});

const stepId = id.describe(
  'The name of this step, once in the file. What is answered here is a finding of this name.',
);
const common = {
  id: stepId.optional(),
  if: condition
    .optional()
    .describe(
      'The step is had only when this holds: every finding has one of its values. Read left to right, and only what was settled on every way to here.',
    ),
};

const effects = {
  raises: perAnswer(z.array(sign).min(1))
    .optional()
    .describe(
      'Signs that an answer raises; they change what may be said next. danger and attack outrank everything; mechanical: never on again; suspect: may be failing, one test can clear it; hardware-failure: ends with the desk, never cleared; only-copy: nothing else has the files.',
    ),
  clears: perAnswer(z.array(z.enum(['suspect', 'mechanical', 'only-copy'])).min(1))
    .optional()
    .describe('Signs that an answer takes back. hardware-failure, danger and attack stay.'),
  sets: perAnswer(z.record(id.meta({ names: 'finding' satisfies NameKind }), value))
    .optional()
    .describe('Further findings that an answer settles, to be read in conditions.'),
  evidence: perAnswer(evidence)
    .optional()
    .describe(
      'How much an answer speaks for and against faults, in bits from 1 to 3. Common practice at first; closed tickets correct it.',
    ),
  goes: perAnswer(id)
    .optional()
    .describe(
      'The step to go on with after an answer: one further down in this file, or `return` to leave the block. Without it the next one comes.',
    ),
  cautions: z
    .array(named('caution'))
    .min(1)
    .optional()
    .describe('Cautions of catalogue/cautions.yaml, said with this step and before it.'),
  help: text.optional().describe('What to say when the person asks back, such as "which port do you mean?".'),
};

export const askStep = z.strictObject({
  ...common,
  ...effects,
  id: stepId,
  ask: text.describe('The question, as the person reads it.'),
  kind: z
    .enum(['choice', 'text', 'number', 'photo'])
    .optional()
    .describe(
      'What is asked for. Unless given: a choice where there are answers (yes or no when these are yes and no), else a text. A number needs unit, minimum and maximum.',
    ),
  answers: z
    .record(id, z.string().trim().min(1).max(75))
    .optional()
    .describe(
      'What can be answered: its name for this file, then the words on the button, in the order shown. Nearly always with not-sure.',
    ),
  answers_from: z
    .enum(['sites', 'shares'])
    .optional()
    .describe(
      'The organisation\'s own list, from site.yaml. sites: instead of `answers`. shares: before `answers`, with "another one" and not-sure behind; in conditions, `sets`, `goes` and the like every one of the list is `listed`.',
    ),
  hears: perAnswer(phrases)
    .optional()
    .describe('More ways in which people say an answer, beside the words on its button.'),
  over: z
    .partialRecord(z.string(), z.array(id).min(1))
    .optional()
    .describe(
      'Per answer, those that it is meant before where the words of both are said: seen before believed, in "on the server, I looked".',
    ),
  opening: perAnswer(phrases)
    .optional()
    .describe(
      'Phrases that already give this answer when they stand in the first words; the question is then not asked. Precise ones only: a wrong guess is worse than a question.',
    ),
  as: id.optional().describe("Another name for the finding; the step's id unless given."),
  fills: z
    .union([z.enum(FIELDS), z.array(z.enum(FIELDS)).min(1)])
    .optional()
    .describe(
      `Field or fields of the ticket that the answer fills. Asked before every hand-over: ${FIELDS.filter(field => FIELD_TABLE[field].always).join(', ')}.`,
    ),
  records: z
    .partialRecord(z.enum(FIELDS), z.string().min(1).max(200))
    .optional()
    .describe(
      'Further fields of the ticket that the answer fills, each in words of its own where the bare answer would mislead there; `{answer}` stands for the answer.',
    ),
  optional: z.boolean().optional().describe('A text, number or photo that the person may skip.'),
  unit: z.string().max(20).optional().describe('What a number counts, such as GB.'),
  minimum: z.number().optional().describe('The least number that is taken.'),
  maximum: z.number().optional().describe('The greatest number that is taken.'),
});

export const tryStep = z.strictObject({
  ...common,
  ...effects,
  id: stepId,
  try: text.describe('What the person is to do, in words that they can follow. **Bold** what matters.'),
  effect: z
    .enum(EFFECTS)
    .describe(
      'What it does to the drive. none: look, photograph, take a stick or disc out. start: switch on, restart, plug in again. read: copy, search, check without repair. write: save, delete, repair, format, install.',
    ),
  touches: z
    .array(z.enum(TOUCHES))
    .min(1)
    .optional()
    .describe(
      'What it lays hands on, where that needs more care than its effect tells; each has its rule. case: opens a machine. inside-cable, module: inside it. move-drive: into another machine. own-stick: storage of their own.',
    ),
  minutes: z.number().positive().max(240).describe('How long it takes the person.'),
  fixed: named('fault')
    .optional()
    .describe(
      'The fault that it was when this works, of catalogue/faults.yaml; the conversation then ends. Without it the step is only done or not done.',
    ),
  works: text
    .optional()
    .describe('The question that shows whether it worked, such as "Does it start normally now?".'),
  fills: z.enum(FIELDS).optional().describe('Field of the ticket that the answer fills.'),
});

export const sayStep = z.strictObject({
  ...common,
  say: text.describe('Words in passing. Something to do is a `try`.'),
});
export const cautionStep = z.strictObject({
  ...common,
  caution: named('caution').describe('A caution of catalogue/cautions.yaml, said here.'),
});
export const visitStep = z.strictObject({
  ...common,
  visit: named('block').describe(
    'A block, by the name of its folder in blocks/. It ends the conversation or comes back to the next step.',
  ),
});
export const handOverStep = z.strictObject({
  ...common,
  hand_over: z
    .strictObject({
      because: text.optional().describe('Why, in words for the person and the ticket.'),
      keep: z
        .enum(['off', 'on', 'as-it-is', 'as-usual'])
        .optional()
        .describe(
          'What to do with the power until someone comes. as-it-is: nothing is switched, restarted or unplugged. as-usual: nothing hangs on it, and nothing is said of it unless a sign does.',
        ),
    })
    .describe('To the desk, with a ticket. The conversation ends here.'),
});
export const endStep = z.strictObject({
  ...common,
  end: z
    .enum(['not-storage', 'done'])
    .describe(
      "Ends without a ticket. not-storage: somebody else's matter. done: the work of a desk flow is finished.",
    ),
  say: text.optional().describe('The last words; of a desk flow they are the result on the ticket.'),
});

const setting = z.union([z.string(), z.number(), z.boolean()]);
const field = z
  .string()
  .regex(/^[a-z][A-Za-z0-9]*(\.[A-Za-z0-9]+)*$/, 'a field of the working, such as level or usb.amperes');

const workGiven = z.union([
  id,
  z.strictObject({
    answer: id.describe('The finding that the answer set.'),
    as: z
      .record(id, setting)
      .optional()
      .describe('What each answer means to the working; others are left out.'),
    list: z
      .boolean()
      .optional()
      .describe(
        'The text is a list of whole numbers, such as "1 and 3", or "none". Any other text makes it unclear.',
      ),
  }),
]);
export type WorkGiven = z.infer<typeof workGiven>;

export const workStep = z.strictObject({
  ...common,
  id,
  work_out: id.describe(
    'A working, by name: reseat work-out lists them. Its verdict is the finding of this step.',
  ),
  from: z
    .record(field, workGiven)
    .optional()
    .describe(
      'Fields of the working and the earlier answers that give them. What was not answered is left out.',
    ),
  with: z
    .record(field, z.union([setting, z.array(setting)]))
    .optional()
    .describe('Fields of the working that are always the same here.'),
  tells: z
    .boolean()
    .optional()
    .describe('Say the result here. It is on the ticket in any case, unless with perhaps.'),
  perhaps: z
    .literal(true)
    .optional()
    .describe('What goes in may well be nothing to work with; then nothing of it is on the ticket.'),
  raises: effects.raises,
  clears: effects.clears,
  sets: effects.sets,
  evidence: effects.evidence,
  goes: effects.goes,
});
export type WorkFlowStep = z.infer<typeof workStep>;

export const step = z.union([
  askStep,
  tryStep,
  workStep,
  sayStep,
  cautionStep,
  visitStep,
  handOverStep,
  endStep,
]);
export type FlowStep = z.infer<typeof step>;
export type AskStep = z.infer<typeof askStep>;
export type TryStep = z.infer<typeof tryStep>;

export const flow = z.strictObject({
  symptom: named('symptom').describe(
    "The symptom that this flow is for; the folder's name. desk-TOPIC for technicians.",
  ),
  title: z.string().trim().min(1).max(120).describe('What it is about, as the desk reads it.'),
  steps: z.array(step).min(1).max(60).describe('From top to bottom. Steps go on to later ones only.'),
});
export type Flow = z.infer<typeof flow>;

export const block = z.strictObject({
  block: id.describe("The folder's name; flows visit it by this."),
  about: z.string().trim().min(1).describe('What the block establishes, for the reader of the file.'),
  steps: z.array(step).min(1).max(40).describe('From top to bottom. `goes: return` leaves the block.'),
});
export type Block = z.infer<typeof block>;

/** The keyword by which a step is told from the others; used to say which kind was meant when one does not fit. */
export const STEP_KINDS = {
  ask: askStep,
  try: tryStep,
  work_out: workStep,
  visit: visitStep,
  hand_over: handOverStep,
  caution: cautionStep,
  end: endStep,
  say: sayStep,
} as const;
