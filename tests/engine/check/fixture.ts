/** Small flows for the checker's tests: YAML with what matters, the rest of the house taken from one short default. */
import { type Document, isNode, LineCounter, parseAllDocuments } from 'yaml';
import { type Catalogue, type Site, SYMPTOMS, site as siteShape } from '#engine/catalogue.ts';
import { type Compiled, compile, type Origin } from '#engine/compile.ts';
import { FIELD_TABLE, FIELDS } from '#engine/fields.ts';
import { type Block, block as blockShape, flow as flowShape } from '#engine/schema.ts';

export interface Fixture {
  compiled: Compiled[];
  catalogue: Catalogue;
  /** Line in the fixture's text; null for a place in the default house. */
  line(origin: Origin): number | null;
  /** Lines that end in a `# <- found` comment. */
  marked: number[];
}

/** Each document of the text. `flow` is one flow; `blocks` and `catalogue` come beside or instead of the default's. */
export function fixtures(text: string): Fixture[] {
  const lines = new LineCounter();
  const rows = text.split('\n');
  return parseAllDocuments(text, { lineCounter: lines }).map(doc => {
    const document = doc as Document.Parsed;
    if (document.errors.length > 0) throw document.errors[0];
    const { flow, flows = [flow], blocks = {}, catalogue = {}, site = {} } = document.toJS();
    const house = { ...DEFAULT, ...catalogue } as Catalogue;
    const inlined: Record<string, Block> = { ...BLOCKS };
    for (const [id, body] of Object.entries(blocks)) {
      inlined[id] = blockShape.parse({ block: id, about: 'for a test', ...(body as object) });
    }
    const where = siteShape.parse({ ...SITE, ...site });
    const compiled = (flows as object[]).map(each =>
      compile(flowShape.parse({ title: 'For a test', ...each }), inlined, house, where),
    );
    const line = ({ unit, path }: Origin): number | null => {
      const at = unit.startsWith('blocks/')
        ? ['blocks', unit.slice('blocks/'.length), ...path]
        : unit.startsWith('catalogue/')
          ? ['catalogue', unit.slice('catalogue/'.length, -'.yaml'.length), ...path]
          : flow
            ? ['flow', ...path]
            : ['flows', (flows as { symptom: string }[]).findIndex(each => each.symptom === unit), ...path];
      if (!document.hasIn(at.slice(0, 2))) return null;
      for (let length = at.length; length > 0; length--) {
        const node = document.getIn(at.slice(0, length), true);
        if (isNode(node) && node.range) return lines.linePos(node.range[0]).line;
      }
      return null;
    };
    const [from, , to] = document.range;
    const first = lines.linePos(from).line;
    const last = lines.linePos(to).line;
    const marked = rows.flatMap((row, index) =>
      index + 1 >= first && index + 1 <= last && /# <- found\b/.test(row) ? [index + 1] : [],
    );
    return { compiled, catalogue: house, line, marked };
  });
}

export const SITE: Site = {
  organisation: 'An invented firm',
  desk: {
    name: 'the desk',
    hours: 'at any hour',
    phone: '555-0100',
    answers: { critical: 'now', high: 'soon', medium: 'today', low: 'tomorrow' },
  },
  emergency: { number: '555-0199', words: 'Call 555-0199.' },
  security: { contact: 'the security officer' },
  elsewhere: [{ about: 'Anything else', where: 'the desk' }],
  sites: { here: { name: 'Here', time_zone: 'Europe/London' } },
  many: 5,
  policies: {},
};

export const DEFAULT: Catalogue = {
  symptoms: {},
  faults: Object.fromEntries(
    ['cable-loose', 'drive-failing', 'usb-left-in'].map(id => [
      id,
      {
        name: id,
        means: id,
        hardware: true,
        symptoms: SYMPTOMS.filter(symptom => !symptom.startsWith('share-')),
        checks: [{ check: 'look', minutes: 1 }],
      },
    ]),
  ) as Catalogue['faults'],
  cautions: {
    'danger-first': {
      text: "Leave, raise the alarm. Pull the plug only with dry hands. Wet: never on again. A swollen battery: don't touch it.",
      on_sign: 'danger',
    },
    'keep-away': { text: 'Keep people away from it.' },
    'attack-first': {
      text: 'Network cable out, leave it on, delete nothing, pay nothing, plug no backup drive in.',
      on_sign: 'attack',
    },
    'leave-the-traces': { text: 'Leave everything as it is.' },
    'mechanical-first': { text: 'Switch it off, and never on again. No opening.', on_sign: 'mechanical' },
    'data-first': { text: 'If it offers to format, press Cancel.' },
    'keep-on': { text: 'Leave it on, no restart.' },
    'server-hands-off': { text: 'Touch nothing.' },
    'password-twice': { text: 'Twice at most.' },
    'wet-off': { text: 'Off, and never on again.' },
    'desk-array-first': { text: 'Nothing is pulled.' },
    'stop-writing': { text: 'Save nothing on it.' },
    'noise-first': { text: 'Off, and switch nothing on to listen.' },
    'firmware-look': { text: 'Only look, change nothing, and leave without saving.' },
    'case-safe': {
      text: "By your site's rules: shut down, mains lead out, power button once, bare metal, power supply closed.",
    },
  },
  interrupts: {
    danger: {
      rank: 30,
      sign: 'danger',
      block: 'danger',
      caution: 'danger-first',
      doubt: 'Is something burning?',
      sure: ['smoke'],
      doubtful: ['burning'],
    },
    attack: {
      rank: 20,
      sign: 'attack',
      block: 'attack',
      caution: 'attack-first',
      doubt: 'Is it an attack?',
      sure: ['ransom'],
    },
  },
  screenMessages: {},
  osCodes: {},
  policies: {
    firmware: { about: 'firmware', values: ['allowed', 'locked'], default: 'locked' },
    'usb-storage': { about: 'own storage', values: ['allowed', 'blocked'], default: 'blocked' },
    case: { about: 'case', values: ['desk', 'allowed'], default: 'desk' },
  },
};

const parse = (block: string, steps: unknown[]): Block =>
  blockShape.parse({ block, about: 'part of the default house', steps });

const all = FIELDS.filter(field => FIELD_TABLE[field].always);
const yesNo = { yes: 'Yes', no: 'No' };

/** Blocks that any fixture may visit: `everything` fills all fields that a hand-over needs, `data` settles the data. */
export const BLOCKS: Record<string, Block> = {
  everything: parse('everything', [
    { id: 'everything', ask: 'Tell us all that the ticket needs.', kind: 'text', fills: all },
  ]),
  data: parse('data', [
    { caution: 'data-first' },
    {
      id: 'copy',
      ask: 'Where else are the files?',
      answers: { seen: 'Elsewhere', nowhere: 'Nowhere' },
      raises: { nowhere: ['only-copy'] },
      fills: 'data.copy',
    },
  ]),
  danger: parse('danger', [
    { caution: 'danger-first' },
    { id: 'danger-now', ask: 'Is it happening now?', answers: yesNo, raises: { yes: ['danger'] } },
    { caution: 'keep-away', if: { danger: 'yes' } },
    {
      id: 'danger-where',
      if: { danger: 'yes' },
      ask: 'Where are you?',
      kind: 'text',
      fills: ['place.site', 'place.room', 'contact.way'],
    },
    { if: { danger: 'yes' }, hand_over: { keep: 'off' } },
  ]),
  attack: parse('attack', [
    { caution: 'attack-first' },
    { id: 'attack-seen', ask: 'Do you see a note?', answers: yesNo, raises: { yes: ['attack'] } },
    { caution: 'leave-the-traces', if: { attack: 'yes' } },
    {
      id: 'attack-all',
      if: { attack: 'yes' },
      ask: 'Tell us all that the ticket needs.',
      kind: 'text',
      fills: all,
    },
    { if: { attack: 'yes' }, hand_over: { keep: 'on' } },
  ]),
};
