import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FIELD_TABLE, FIELDS } from '#engine/fields.ts';
import type { TicketRow } from '#store/store.ts';
import { COLUMNS, printable, widthOf, wrapped } from '#tickets/plain.ts';
import type { LifeEntry, Ticket } from '#tickets/schema.ts';
import { ticketLine, ticketText } from '#tickets/text.ts';
import { START, ticketOf, whole } from './sample.ts';

const life: LifeEntry[] = [
  { kind: 'opened', at: START, by: 'Reseat' },
  { kind: 'taken', at: START, by: 'Bo' },
  { kind: 'asked', at: START, by: 'Bo', ask: 'q', text: 'Which colour?' },
  { kind: 'answered', at: START, by: 'Ada', ask: 'q', text: 'blue' },
  { kind: 'priority', at: START, by: 'Bo', priority: 'low', reason: 'spare there', worked: 'high' },
  { kind: 'waiting', at: START, by: 'Bo', until: START, reason: 'parts' },
];
const ticket = ticketOf(whole());
const text = ticketText(ticket, life);
/** One long line, as a reader joins it. */
const flat = (lines: string) => lines.replace(/\s+/g, ' ');

describe('a ticket in the terminal', () => {
  it('has its sections in the order of work', () => {
    const headings = [...text.matchAll(/^[A-Z][A-Z ]+$/gm)].map(([heading]) => heading);
    expect(headings).toEqual([
      'NOW',
      'REPORTED',
      'WHAT IS KNOWN',
      'SUSPECTED',
      'BENCH PLAN',
      'CAUTIONS GIVEN',
      'ASKED AND ANSWERED',
      'FINDINGS',
      'LIFE',
    ]);
  });

  it('names every field, those not needed in one place', () => {
    for (const field of FIELDS) expect(flat(text)).toContain(FIELD_TABLE[field].label);
    expect(flat(text)).toMatch(/Not needed here .*Drive: serial number/);
  });

  it('says why it has its priority, who changed it and what counts now', () => {
    expect(flat(text)).toContain('Priority low (impact: one, urgency: low)');
    expect(flat(text)).toContain('Priority set by hand low by Bo. spare there');
    expect(flat(text)).toContain(ticket.why);
  });

  it('tells suspects, plan, parts and what is kept back', () => {
    expect(text).toContain('86%  The drive is failing (drive-failing, hardware)');
    expect(flat(text)).toContain('for: Which noise is it? Regular clicking');
    expect(text).toMatch(/^ 1\. First decide with the owner/m);
    expect(flat(text)).toContain('Kept back. Starting the drive again may end it.');
    expect(text).toMatch(/Parts at hand +drive/);
  });

  it('tells the life in order, with times', () => {
    expect(text).toContain('2031-05-06 08:00 UTC  Bo: asked the person: Which colour?');
    expect(text).toContain('Ada: answered: blue');
    expect(text).toContain('Bo: lets it wait until 2031-05-06 08:00 UTC: parts');
  });

  it('marks what was taken back', () => {
    const answers = ticket.answers.map(answer => ({ ...answer, withdrawn: true }));
    expect(ticketText({ ...ticket, answers }, life)).toContain('taken back: Regular clicking');
  });

  it('says what was not asked and why', () => {
    const fields = { ...ticket.fields, 'place.site': { state: 'not-asked', why: 'danger' } as const };
    expect(ticketText({ ...ticket, fields }, life)).toMatch(/Site +not asked: somebody may be in danger/);
  });

  it('fits 80 columns whatever people write, and cuts nothing', () => {
    const unit = fc.constantFrom('a', 'Z', '9', ' ', '/', 'é', '漢', '😀', '\n', '\u001b', '\u202e', '\t');
    const words = fc.string({ unit, maxLength: 400 });
    fc.assert(
      fc.property(words, written => {
        const lines = ticketText({ ...ticket, opening: written }, life).split('\n');
        expect(Math.max(...lines.map(widthOf))).toBeLessThanOrEqual(COLUMNS);
        const bare = (some: string) => some.replace(/\s/g, '');
        expect(bare(lines.join(''))).toContain(bare(printable(written)));
      }),
    );
  });
});

describe('nothing that people write can command the terminal', () => {
  const hostile = '\u001b[2J\u001b]0;owned\u0007 a\rb \u009b31m \u202egnp.exe \u0000';

  it('control and direction characters are written out', () => {
    expect(printable('\u001b[2J')).toBe('<U+001B>[2J');
    expect(printable('a\u202eb\u009b')).toBe('a<U+202E>b<U+009B>');
    expect(printable('a\r\nb\tc')).toBe('a\nb  c');
    expect(printable('\ud800')).toBe('<U+D800>');
    expect(printable('Zoë 漢字 👩‍🔧')).toBe('Zoë 漢字 👩‍🔧');
  });

  it('in every place of a ticket that comes from a person', () => {
    const person = { id: hostile, name: hostile, mail: hostile, channel: 'terminal' };
    const known = { state: 'known', value: hostile, answer: null, words: `x${hostile}` } as const;
    const foul: Ticket = {
      ...ticket,
      person,
      title: hostile,
      opening: hostile,
      screen: { id: 'x', verbatim: hostile },
      fields: { ...ticket.fields, 'place.room': known },
      answers: ticket.answers.map(answer => ({
        ...answer,
        answer: hostile,
        words: hostile,
        question: hostile,
      })),
      attachments: [{ id: hostile, name: hostile, type: hostile, bytes: 3 }],
    };
    const entries: LifeEntry[] = [{ kind: 'note', at: START, by: hostile, text: hostile }];
    const shown =
      ticketText(foul, entries) + ticketLine({ ...row(), ticket: foul, site: hostile, takenBy: hostile });
    expect(shown.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\u202e]/u);
  });
});

function row(): TicketRow {
  return {
    number: 1001,
    conversation: 'c1',
    chat: 'terminal:ada',
    status: 'open',
    priority: 'high',
    symptom: 'drive-noise',
    site: 'quay',
    takenBy: null,
    fault: null,
    outage: null,
    ticket,
    life: [{ kind: 'handed', at: START, by: 'Bo', to: 'Cleo' }],
    openedAt: START,
    updatedAt: START,
  };
}

describe('a line of the list', () => {
  it('gives number, priority, status, since when, what, where and whose', () => {
    expect(ticketLine(row())).toBe(
      `R-1001   high      open     2031-05-06 08:00 UTC  A drive makes a noise  Ada  at quay  with Cleo  “${ticket.opening}”`,
    );
    expect(ticketLine({ ...row(), takenBy: 'Bo', fault: 'fan-worn' })).toContain('with Bo  was fan-worn');
  });
  it('stays one line', () => {
    expect(ticketLine({ ...row(), ticket: { ...ticket, title: 'a\nb' } })).not.toContain('\n');
  });
});

describe('lines of 80 columns', () => {
  it('count what a terminal counts', () => {
    expect(widthOf('漢字')).toBe(4);
    expect(widthOf('e\u0301')).toBe(1);
    expect(widthOf('😀')).toBe(2);
  });
  it('hang under the first one', () => {
    const fifteen = 'word '.repeat(15);
    expect(wrapped('- ', `${fifteen}80! more`)).toEqual([`- ${fifteen}80!`, '  more']);
    expect(wrapped('- ', `${fifteen}over`)).toEqual([`- ${fifteen.trim()}`, '  over']);
  });
});
