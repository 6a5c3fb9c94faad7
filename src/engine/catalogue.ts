/** The shapes of flows/catalogue/*.yaml and flows/site.yaml. */
import { z } from 'zod';
import { EFFECTS, id, named, SIGNS } from './schema.ts';
import { share } from './shares.ts';

const words = z.string().trim().min(1);
const phrases = z.array(words).min(1);
const languages = z.enum(['en', 'de', 'fr', 'es']);

export const symptoms = z.record(
  named('symptom'),
  z.strictObject({
    title: words
      .max(75)
      .describe('What the person would call it, after "this is about": "a drive that makes a noise".'),
    phrases: phrases.describe('Ways people say it. The words of one phrase need not stand side by side.'),
    also: z.partialRecord(languages, phrases).optional().describe('The same in other languages.'),
    not: phrases.optional().describe('Words that speak against it.'),
  }),
);

export const faults = z.record(
  id,
  z.strictObject({
    name: words.max(80).describe('What the desk calls it.'),
    means: words.describe('What has happened and what follows from it, for the ticket.'),
    hardware: z.boolean().describe('Is a part worn, broken or badly seated?'),
    symptoms: z.array(named('symptom')).min(1).describe('Symptoms that it can cause.'),
    checks: z
      .array(
        z.strictObject({
          check: words.describe(
            'What a technician does. The same words in two faults are one check on the plan.',
          ),
          minutes: z.number().positive().describe('How long it takes. Common practice.'),
          open: z.boolean().optional().describe('Must the case be open?'),
          effect: z
            .enum(EFFECTS)
            .optional()
            .describe('What it does to the drive: none, start, read or write; read unless given.'),
        }),
      )
      .min(1)
      .describe('Bench checks in the order of safety: look before touch, cable before drive.'),
    failing: z
      .boolean()
      .optional()
      .describe(
        'The drive itself is giving out: its data is saved before anything starts or reads it again.',
      ),
    parts: z.array(words).optional().describe('Parts that are likely needed.'),
    prevent: words
      .optional()
      .describe('What keeps it from happening again. Told to whoever closes its ticket.'),
    tell: z
      .literal(true)
      .optional()
      .describe('The person can do that themselves, so they are told it when the fault is mended.'),
  }),
);

export const cautions = z.record(
  id,
  z.strictObject({
    text: words.max(900).describe('What the person is told, in full.'),
    do: z
      .array(words)
      .optional()
      .describe('The same as short lines for the hand-over: what to do until someone comes.'),
    dont: z
      .array(words)
      .optional()
      .describe('The same as short lines for the hand-over: what not to do until someone comes.'),
    on_sign: z.enum(SIGNS).optional().describe('Said in the same message when this sign is raised.'),
    takes_over: z
      .record(id, words.max(160))
      .optional()
      .describe(
        'By a caution that orders the opposite: words to add where that one was said before, so that nobody obeys both.',
      ),
  }),
);

export const interrupts = z.record(
  id,
  z.strictObject({
    rank: z.number().int().positive().describe('Which goes first when two are said: the higher one.'),
    sign: z.enum(SIGNS).describe('The sign that its block finds out about.'),
    block: named('block').describe('The block whose questions follow.'),
    caution: named('caution').describe('Said at once.'),
    doubt: words.max(300).describe('The yes or no that comes first when the words are doubtful.'),
    sure: phrases.describe(
      'Words that leave no doubt. A phrase\'s words must all stand in one sentence; "coffee|tea over laptop" is two phrases, each in this order.',
    ),
    doubtful: phrases.optional().describe('Words that might mean it.'),
    unless: phrases.optional().describe('Phrases that look like it and are not: "burning a disc".'),
    outranks: z
      .strictObject({
        title: words.max(80).describe('What the ticket is about then, instead of the symptom.'),
        faults: z
          .array(named('fault'))
          .describe('What is suspected then; nothing is, where the list is empty.'),
        where: z
          .record(
            id,
            z.record(
              id,
              z.strictObject({
                title: words.max(80).describe('What the ticket is about then.'),
                faults: z.array(named('fault')).describe('What is suspected then.'),
              }),
            ),
          )
          .optional()
          .describe(
            'The same by an answer, where it tells one kind from another: a finding, and its answers.',
          ),
      })
      .optional()
      .describe('Where its sign makes the symptom a side matter.'),
    not_for: z.array(named('symptom')).optional().describe('Symptoms whose own questions cover it.'),
  }),
);

export const screenMessages = z.record(
  id,
  z.strictObject({
    texts: phrases.describe('Texts as they stand on the screen; `*` for any few words or figures.'),
    symptom: named('symptom').describe('What it is a symptom of.'),
    on_share: named('symptom').optional().describe('The same where it is about a network drive.'),
    means: words.describe('What it says in plain words.'),
  }),
);

export const osCodes = z.record(
  id,
  z.strictObject({
    kind: z
      .enum(['error', 'stop', 'start'])
      .describe(
        'error: a number of a message or command, also heard as 0x8007.... stop: of a blue screen, such as 0x7B. start: before Windows starts, 0xC.......',
      ),
    code: z.number().int().min(0).max(0xff_ff_ff_ff).describe('The number, such as 53 or 0x7B.'),
    name: z
      .string()
      .regex(/^[A-Z][A-Za-z0-9_]+$/)
      .describe("The maker's name for it."),
    means: words.describe('What it says in plain words.'),
    symptom: named('symptom').describe('What it is a symptom of.'),
    on_share: named('symptom').optional().describe('The same where it is about a network drive.'),
    takes: z
      .record(id, id)
      .optional()
      .describe(
        'Questions of that flow, by finding, that it answers: { error: not-found }. Heard in the first words or at the question.',
      ),
  }),
);

export const policies = z.record(
  id,
  z.strictObject({
    about: words.describe('The question that it answers, for whoever fills in site.yaml.'),
    values: z.array(id).min(2).describe('What an organisation can choose; the checker tries all.'),
    default: id.describe('What holds where site.yaml says nothing: the careful one.'),
  }),
);

export const site = z.strictObject({
  organisation: words.describe('Your organisation, as people call it.'),
  desk: z
    .strictObject({
      name: words.describe('What people call the desk.'),
      hours: words.describe('When somebody is there.'),
      phone: words.describe('The number to call when it becomes urgent.'),
      mail: words.optional().describe('The address to write to.'),
      answers: z
        .strictObject({ critical: words, high: words, medium: words, low: words })
        .describe('How soon the desk answers, by priority, in words: "within 15 minutes".'),
    })
    .describe('Who takes the tickets.'),
  emergency: z
    .strictObject({
      number: words.describe('The number to call when people are in danger.'),
      words: words.describe('What people are told first, with the number in it.'),
    })
    .describe('For danger to people: said before anything else.'),
  security: z
    .strictObject({ contact: words.describe('Who takes a suspected attack.') })
    .describe('For a suspected attack.'),
  elsewhere: z
    .array(z.strictObject({ about: words, where: words }))
    .min(1)
    .describe('Where other problems go.'),
  sites: z
    .record(
      id,
      z.strictObject({
        name: words.describe('As people call it.'),
        time_zone: words.describe('Such as Europe/London.'),
      }),
    )
    .describe('The places where your people work.'),
  shares: z
    .array(share)
    .superRefine((shares, context) => {
      shares.forEach(({ id: own }, index) => {
        if (shares.findIndex(other => other.id === own) === index) return;
        context.addIssue({ code: 'custom', path: [index, 'id'], message: `the id "${own}" is taken` });
      });
    })
    .optional()
    .describe('Network drives and shared folders.'),
  connecting: z
    .strictObject({
      script: words.describe('How people start the sign-in script by hand: "double-click ...".'),
      wait: words.describe('How long it takes until a policy connects drives: "within 20 minutes".'),
      vpn: words.describe('How people switch the VPN on: "click ..., then ...".'),
    })
    .optional()
    .describe('How shares are connected here. Which of the ways holds is the policy share-mapping.'),
  many: z.number().int().min(2).describe('From how many people on it counts as many.'),
  policies: z
    .record(named('policy'), id)
    .describe('What your organisation chose of catalogue/policies.yaml.'),
});
export type Site = z.infer<typeof site>;
export type Symptoms = z.infer<typeof symptoms>;
export type Faults = z.infer<typeof faults>;
export type Fault = Faults[string];
export type Cautions = z.infer<typeof cautions>;
export type Interrupts = z.infer<typeof interrupts>;
export type ScreenMessages = z.infer<typeof screenMessages>;
export type OsCodes = z.infer<typeof osCodes>;
export type OsCode = OsCodes[string];
export type Policies = z.infer<typeof policies>;

export interface Catalogue {
  symptoms: Symptoms;
  faults: Faults;
  cautions: Cautions;
  interrupts: Interrupts;
  screenMessages: ScreenMessages;
  osCodes: OsCodes;
  policies: Policies;
}

/** The symptom ids that a flow may have. `any` is the flow for an alarm that comes before a symptom is named. */
export const SYMPTOMS = [
  'boot-read-error',
  'boot-no-device',
  'boot-no-os',
  'boot-recovery-key',
  'drive-noise',
  'drive-slow',
  'drive-missing-internal',
  'drive-missing-usb',
  'share-missing',
  'share-denied',
  'health-warning',
  'write-protected',
  'files-corrupt',
  'raid-alarm',
  'overheating',
  'new-hardware',
  'disk-full',
  'files-lost',
  'not-storage',
] as const;
export const ANY = 'any';
