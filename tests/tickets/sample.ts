/** A small flow of its own, so that these tests do not change when the real flows do. */
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import type { Catalogue, Faults, Site } from '#engine/catalogue.ts';
import { faults as faultsShape } from '#engine/catalogue.ts';
import { compile } from '#engine/compile.ts';
import type { AnswerValue, Entry, Opened } from '#engine/entries.ts';
import { fold } from '#engine/fold.ts';
import { block, flow } from '#engine/schema.ts';
import { type FillInput, fileTicket } from '#tickets/fill.ts';

export const realFaults = (): Faults =>
  faultsShape.parse(parse(readFileSync('flows/catalogue/faults.yaml', 'utf8')));

export const site: Site = {
  organisation: 'Alder & Finch',
  desk: {
    name: 'The service desk',
    hours: 'Monday to Friday, 7 to 19',
    phone: '555 0100',
    answers: {
      critical: 'within 15 minutes',
      high: 'within 1 hour',
      medium: 'within 4 hours',
      low: 'by the next working day',
    },
  },
  emergency: { number: '112', words: 'Get everybody out, then call.' },
  security: { contact: 'the security team, 555 0199' },
  elsewhere: [{ about: 'printers', where: 'the print room' }],
  sites: { quay: { name: 'Quay House', time_zone: 'Europe/London' } },
  shares: [
    {
      id: 'accounts',
      letter: 'S:',
      path: '\\\\files\\accounts',
      about: 'the accounts folder',
      owner: 'the head of accounts',
      shared: true,
    },
    {
      id: 'attic',
      letter: 'T:',
      path: '\\\\files\\attic',
      about: 'the old papers',
      owner: 'the archivist',
    },
  ],
  many: 5,
  policies: {},
};

const faults: Faults = {
  'drive-failing': {
    name: 'The drive is failing',
    means: 'It gives out.',
    hardware: true,
    failing: true,
    symptoms: ['drive-noise', 'drive-slow'],
    checks: [{ check: 'Read the health counters.', minutes: 5, effect: 'read' }],
    parts: ['drive'],
  },
  'fan-worn': {
    name: 'A fan is worn',
    means: 'It rattles.',
    hardware: true,
    symptoms: ['drive-noise'],
    checks: [
      { check: 'Look at the fans.', minutes: 3, effect: 'none' },
      { check: 'Listen without the drive.', minutes: 15, open: true, effect: 'none' },
    ],
    parts: ['fan'],
  },
  'disc-left-in': {
    name: 'A disc makes the noise',
    means: 'It turns.',
    hardware: false,
    symptoms: ['drive-noise'],
    checks: [{ check: 'Take the disc out.', minutes: 1, effect: 'none' }],
  },
  'disk-full': {
    name: 'The disk is full',
    means: 'No room.',
    hardware: false,
    symptoms: ['drive-slow'],
    checks: [{ check: 'Look how full it is.', minutes: 1, effect: 'read' }],
  },
};

export const catalogue: Catalogue = {
  symptoms: { 'drive-noise': { title: 'a drive that makes a noise', phrases: ['noise'] } },
  faults,
  cautions: {
    'power-off': {
      text: 'Power it off **once**.',
      do: ['Keep the device where it is.'],
      dont: ['Do not shake it.'],
      on_sign: 'mechanical',
    },
    'leave-on': { text: 'Leave it on.', do: ['Save now.'], on_sign: 'suspect' },
    smoke: { text: 'Get away from it.', do: ['Stay away from it.'] },
  },
  interrupts: {
    smoke: {
      rank: 9,
      sign: 'danger',
      block: 'smoke',
      caution: 'smoke',
      doubt: 'Do you see smoke?',
      sure: ['smoke'],
    },
  },
  screenMessages: {},
  osCodes: {},
  policies: {},
};

const noise = flow.parse({
  symptom: 'drive-noise',
  title: 'A drive makes a noise',
  steps: [
    {
      id: 'which',
      ask: 'Which **noise** is it?',
      answers: { clicking: 'Regular clicking', rattling: 'Rattling', 'not-sure': "I'm not sure" },
      raises: { clicking: ['mechanical'], 'not-sure': ['suspect'] },
      evidence: {
        clicking: { for: { 'drive-failing': 3 }, against: { 'fan-worn': 2 } },
        rattling: { for: { 'fan-worn': 2 } },
      },
    },
    { id: 'site', ask: 'At which site?', answers_from: 'sites', fills: 'place.site' },
    { id: 'room', ask: 'Which room?', fills: 'place.room' },
    { id: 'holder', ask: 'Who has the device?', fills: 'place.room' },
    { id: 'tag', ask: 'What does the sticker say?', optional: true, fills: 'device.tag' },
    {
      id: 'running',
      ask: 'Is it on?',
      answers: { on: 'On', off: 'Off', 'not-sure': "I'm not sure" },
      sets: { on: { power: 'on' }, off: { power: 'off' }, 'not-sure': { power: 'not-sure' } },
      fills: 'power.now',
    },
    {
      id: 'off-now',
      if: { running: 'on' },
      ask: 'Please switch it off. Is it off?',
      answers: { done: 'It is off now', still: 'It is still on' },
      sets: { done: { power: 'off' }, still: { power: 'on' } },
      fills: 'power.now',
    },
    {
      id: 'copy',
      ask: 'Is it anywhere else?',
      answers: { seen: 'Yes, I saw it', nowhere: 'No', 'not-sure': "I'm not sure" },
      fills: 'data.copy',
    },
    {
      id: 'disc',
      if: { which: 'rattling' },
      try: 'Take the disc out.',
      effect: 'none',
      minutes: 1,
      fixed: 'disc-left-in',
    },
    { hand_over: { because: 'It needs a technician.' } },
  ],
});
const smoke = block.parse({
  block: 'smoke',
  about: 'Is it burning?',
  steps: [
    {
      id: 'now',
      ask: 'Is it burning now?',
      answers: { yes: 'Yes', no: 'No' },
      raises: { yes: ['danger'] },
      goes: { no: 'return' },
    },
    { hand_over: {} },
  ],
});

const compiled = compile(noise, { smoke }, catalogue, site);
if (compiled.problems.length > 0) throw new Error(JSON.stringify(compiled.problems));
export const script = compiled.script;

const general = flow.parse({ symptom: 'any', title: 'Anything', steps: [{ hand_over: {} }] });
export const anyScript = compile(general, { smoke }, catalogue, site).script;

export const START = Date.UTC(2031, 4, 6, 8, 0);
const MINUTE = 60_000;

/** A conversation: the opening, then what is said, a minute apart. Questions are numbered as the engine numbers them. */
export function talk(
  ...said: (readonly [step: string, value: string | AnswerValue] | Partial<Entry>)[]
): Entry[] {
  return extend([opening()], ...said);
}

export function extend(
  entries: Entry[],
  ...said: (readonly [step: string, value: string | AnswerValue] | Partial<Entry>)[]
): Entry[] {
  for (const each of said) {
    const at = START + entries.length * MINUTE;
    const question = fold(script, entries).state.number;
    if (Array.isArray(each)) {
      const [step, value] = each as readonly [string, string | AnswerValue];
      const id = typeof value === 'string' ? { id: value } : value;
      const words = 'text' in id ? id.text : 'id' in id ? id.id : '';
      entries.push({ kind: 'answer', at, question, step, value: id, words });
    } else {
      entries.push({ at, question, ...each } as Entry);
    }
  }
  return entries;
}

export const opening = (change: Partial<Opened> = {}): Opened => ({
  kind: 'opened',
  at: START,
  words: 'my drive clicks',
  symptom: 'drive-noise',
  script: 'hash-1',
  candidates: [],
  waiting: {},
  screen: null,
  ...change,
});

/** The ticket of these entries. */
export function ticketOf(entries: Entry[], change: Partial<FillInput> = {}) {
  const used = change.script === undefined ? script : change.script;
  return fileTicket({
    number: 1001,
    state: fold(used, entries).state,
    script: used,
    scriptHash: 'hash-1',
    entries,
    person: { id: 'u1', name: 'Ada', mail: 'ada@alder.example', channel: 'terminal' },
    catalogue,
    site,
    confirmed: {},
    openedAt: START + MINUTE,
    now: START + 60 * MINUTE,
    outage: null,
    ...change,
  });
}

/** Everything answered to the scripted hand-over, with clicking. */
export const whole = (): Entry[] =>
  talk(
    ['which', 'clicking'],
    ['site', 'quay'],
    ['room', { text: 'room 12' }],
    ['holder', { text: 'on my desk' }],
    ['tag', { skipped: true }],
    ['running', 'off'],
    ['copy', 'not-sure'],
  );
