/** The shapes of flows/catalogue/*.yaml and flows/site.yaml. */
import { z } from 'zod';
import { EFFECTS, id, SIGNS } from './schema.ts';

const words = z.string().trim().min(1);
const phrases = z.array(words).min(1);
const languages = z.enum(['en', 'de', 'fr', 'es']);

export const symptoms = z.record(
  id,
  z.strictObject({
    /** What the person would call it, after "this is about": "a drive that makes a noise". */
    title: words.max(75),
    /** Ways people say it. Several words in one phrase need not stand side by side. */
    phrases,
    /** The same in other languages. */
    also: z.partialRecord(languages, phrases).optional(),
    /** Words that speak against it. */
    not: phrases.optional(),
  }),
);

export const faults = z.record(
  id,
  z.strictObject({
    name: words.max(80),
    means: words,
    hardware: z.boolean(),
    symptoms: z.array(id).min(1),
    /** Bench checks in the order of safety: look before touch, cable before drive. Minutes: common practice. */
    checks: z
      .array(
        z.strictObject({
          check: words,
          minutes: z.number().positive(),
          /** Must the case be open? */
          open: z.boolean().optional(),
          /** What it does to the drive; taken to be `read` unless given. */
          effect: z.enum(EFFECTS).optional(),
        }),
      )
      .min(1),
    /** The drive itself is giving out: its data is saved before anything starts or reads it again. */
    failing: z.boolean().optional(),
    parts: z.array(words).optional(),
    prevent: words.optional(),
  }),
);

export const cautions = z.record(
  id,
  z.strictObject({
    text: words.max(900),
    /** The same as short lines for the hand-over: what to do and what not until someone comes. */
    do: z.array(words).optional(),
    dont: z.array(words).optional(),
    /** Said in the same message when this sign is raised. */
    on_sign: z.enum(SIGNS).optional(),
  }),
);

export const interrupts = z.record(
  id,
  z.strictObject({
    rank: z.number().int().positive(),
    sign: z.enum(SIGNS),
    block: id,
    caution: id,
    /** The yes/no that comes first when the words are doubtful. */
    doubt: words.max(300),
    /** Words that leave no doubt, and words that might. A phrase's words must all stand in one sentence. */
    sure: phrases,
    doubtful: phrases.optional(),
    /** Phrases that look like it and are not: "burning a disc". */
    unless: phrases.optional(),
    /** Symptoms whose own questions cover it. */
    not_for: z.array(id).optional(),
  }),
);

export const screenMessages = z.record(
  id,
  z.strictObject({
    /** Texts as they stand on the screen; `*` for any few words or figures. */
    texts: phrases,
    symptom: id,
    means: words,
  }),
);

export const policies = z.record(
  id,
  z.strictObject({ about: words, values: z.array(id).min(2), default: id }),
);

export const site = z.strictObject({
  organisation: words,
  /** Said in the first message: what the assistant is called here. */
  desk: z.strictObject({
    name: words,
    hours: words,
    phone: words,
    mail: words.optional(),
    /** Minutes within which the desk answers, by priority, in words: "within 15 minutes". */
    answers: z.strictObject({ critical: words, high: words, medium: words, low: words }),
  }),
  emergency: z.strictObject({ number: words, words }),
  security: z.strictObject({ contact: words }),
  /** Where other problems go. */
  elsewhere: z.array(z.strictObject({ about: words, where: words })).min(1),
  sites: z.record(id, z.strictObject({ name: words, time_zone: words })),
  shares: z
    .array(
      z.strictObject({
        letter: words.optional(),
        path: words,
        about: words,
        shared: z.boolean().optional(),
        time_critical: z.boolean().optional(),
      }),
    )
    .optional(),
  /** From how many people on it counts as many. */
  many: z.number().int().min(2),
  policies: z.record(id, id),
});
export type Site = z.infer<typeof site>;
export type Symptoms = z.infer<typeof symptoms>;
export type Faults = z.infer<typeof faults>;
export type Fault = Faults[string];
export type Cautions = z.infer<typeof cautions>;
export type Interrupts = z.infer<typeof interrupts>;
export type ScreenMessages = z.infer<typeof screenMessages>;
export type Policies = z.infer<typeof policies>;

export interface Catalogue {
  symptoms: Symptoms;
  faults: Faults;
  cautions: Cautions;
  interrupts: Interrupts;
  screenMessages: ScreenMessages;
  policies: Policies;
}

/** The symptom ids that a flow may have. `any` is the flow for a symptom that has none of its own yet. */
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
