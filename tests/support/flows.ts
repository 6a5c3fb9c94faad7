/** Small catalogues and flows for tests of the engine: enough to compile, and made up here. */
import type { Catalogue, Site } from '#engine/catalogue.ts';
import { type Compiled, compile } from '#engine/compile.ts';
import { type Block, block, type Flow, flow } from '#engine/schema.ts';

export const site: Site = {
  organisation: 'Test works',
  desk: {
    name: 'The desk',
    hours: 'Monday to Friday',
    phone: '000',
    answers: { critical: 'at once', high: 'within the hour', medium: 'today', low: 'this week' },
  },
  emergency: { number: '112', words: 'Call 112.' },
  security: { contact: 'security@test.example' },
  elsewhere: [{ about: 'Anything else', where: 'the desk' }],
  sites: { north: { name: 'North', time_zone: 'UTC' }, south: { name: 'South', time_zone: 'UTC' } },
  many: 5,
  policies: {},
};

const checks = [{ check: 'Look', minutes: 1 }];
export const catalogue: Catalogue = {
  symptoms: {
    'drive-noise': { title: 'a drive that makes a noise', phrases: ['clicking'] },
    'drive-slow': { title: 'a slow drive', phrases: ['slow'] },
  },
  faults: {
    'usb-left-in': { name: 'stick left in', means: 'm', hardware: false, symptoms: ['drive-noise'], checks },
    'drive-failing': { name: 'drive failing', means: 'm', hardware: true, symptoms: ['drive-noise'], checks },
  },
  cautions: {
    'danger-first': { text: 'Get away from it.' },
    'leave-off': { text: 'Leave it off.', on_sign: 'mechanical', dont: ['Do not switch it on.'] },
  },
  interrupts: {
    danger: {
      rank: 3,
      sign: 'danger',
      block: 'danger',
      caution: 'danger-first',
      doubt: 'Is it burning?',
      sure: ['smoke'],
    },
    mechanical: {
      rank: 1,
      sign: 'mechanical',
      block: 'noise',
      caution: 'leave-off',
      doubt: 'Is it clicking?',
      sure: ['clicking'],
    },
  },
  screenMessages: {},
  osCodes: {},
  policies: { firmware: { about: 'a', values: ['allowed', 'locked'], default: 'allowed' } },
};

const yesNo = { yes: 'Yes', no: 'No', 'not-sure': "I'm not sure" };
export const blocks: Record<string, Block> = {
  danger: block.parse({
    block: 'danger',
    about: 'Is it happening now?',
    steps: [
      {
        id: 'now',
        ask: 'Is it happening now?',
        answers: yesNo,
        raises: { yes: ['danger'], 'not-sure': ['danger'] },
        goes: { no: 'return' },
      },
      { id: 'room', ask: 'Where is it?' },
      { hand_over: { keep: 'off' } },
    ],
  }),
  noise: block.parse({
    block: 'noise',
    about: 'Is it the drive?',
    steps: [
      {
        id: 'really',
        ask: 'Is it the drive that clicks?',
        answers: yesNo,
        raises: { yes: ['mechanical', 'hardware-failure'] },
      },
    ],
  }),
};

export const compiled = (given: object, more: Record<string, Block> = {}): Compiled =>
  compile(flow.parse(given) as Flow, { ...blocks, ...more }, catalogue, site);
