/** Everything that the desk is shown, of the tickets of every walk and of hostile ones, as Teams' own library reads it. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { benchCard, fillCard, resultCard } from '#channels/teams/desk/bench-cards.ts';
import { actionsOf, movedCard, ticketCard } from '#channels/teams/desk/card.ts';
import { detailsPage } from '#channels/teams/desk/details.ts';
import { formCard } from '#channels/teams/desk/forms.ts';
import { momentOf } from '#channels/teams/desk/moment.ts';
import { newsMessage } from '#channels/teams/desk/news.ts';
import { deskCard, outageCard, outageForm, overForm } from '#channels/teams/desk/outage-cards.ts';
import { message } from '#channels/teams/render.ts';
import type { TicketRow } from '#store/store.ts';
import { cardOf } from '#tickets/card.ts';
import { actForm, FORM_ACTS } from '#tickets/forms.ts';
import { foldLife } from '#tickets/life.ts';
import type { LifeEntry } from '#tickets/schema.ts';
import { sectionsOf } from '#tickets/sections.ts';
import { WORKINGS } from '#workings/all.ts';
import { valuesOf, workForm } from '#workings/form.ts';
import { knowledge } from '../../support/knowledge.ts';
import { wrongWith } from '../../support/teams/cards.ts';
import { type Json, textsOf } from '../../support/teams/teams.ts';
import { ticketsIn, WALKED } from '../../support/walked.ts';
import { START } from '../../tickets/sample.ts';

const { site, catalogue } = knowledge;
const { faults } = catalogue;
const known = { site, faults };
const wrong = (card: unknown) => wrongWith(message(card, 'summary'));

const pages = (row: TicketRow): Json[] => {
  const all: Json[] = [];
  for (let page = 0; ; page++) {
    const card = detailsPage(row, page) as Json;
    all.push(card);
    if (!(card.actions ?? []).some((each: Json) => each.title === 'Next page')) return all;
  }
};
const form = (row: TicketRow, act: (typeof FORM_ACTS)[number], more: object = {}) =>
  formCard(actForm(act, row, faults), {
    act,
    number: row.number,
    key: 'k'.repeat(150),
    colleagues: Array.from({ length: 100 }, (_, index) => `A Colleague of Number ${index}`),
    zone: 'Europe/Berlin',
    before: null,
    ...more,
  });
const ticket = (row: TicketRow, doubt = false) => ticketCard(cardOf(row, known), row, doubt);

describe.each(WALKED)('%s', flow => {
  test('its tickets are cards that Teams draws, with all of what is known on the pages of their details', () => {
    const last = ticketsIn(flow).flatMap(tickets => tickets.at(-1) ?? []);
    for (const row of last) {
      expect(wrong(ticket(row, true))).toEqual([]);
      const details = pages(row);
      expect(details.flatMap(wrong)).toEqual([]);
      const drawn = details.flatMap(textsOf).join('\n').replaceAll('\u200b', '');
      for (const { heading, lines } of sectionsOf(row.ticket, row.life)) {
        expect(drawn).toContain(heading);
        for (const { text } of lines) expect(drawn).toContain(text.split('\n')[0]!.slice(0, 1500));
      }
    }
    const [row] = last;
    if (row !== undefined) expect(FORM_ACTS.flatMap(act => wrong(form(row, act)))).toEqual([]);
  });
});

const some = (): TicketRow =>
  ticketsIn('drive-noise')
    .flat()
    .findLast(({ ticket: { suspects } }) => suspects.length > 1)!;
const at = { at: START, by: 'Bo Lind' };

describe('a ticket’s card', () => {
  const row = some();

  test('says its priority in a word and a shape, and the same as is stored (B3)', () => {
    const card = cardOf(row, known);
    const texts = textsOf(ticket(row)).join('\n');
    expect(texts).toMatch(/[◆▲■●] (CRITICAL|HIGH|MEDIUM|LOW) · R-\d+/);
    for (const words of [card.title, card.status, ...card.alarms]) expect(texts).toContain(words);
    for (const { label, texts: told } of card.lines) {
      expect(texts).toContain(label);
      expect(texts).toContain(told[0]!.slice(0, 40));
    }
  });

  test.each<[string, LifeEntry[], string[]]>([
    ['nobody has', [], ['Take it', 'Ask the person', 'Add a note', 'Close', 'All details', 'More']],
    [
      'somebody has',
      [{ ...at, kind: 'taken' }],
      ['Ask the person', 'Add a note', 'Close', 'All details', 'More'],
    ],
    [
      'is closed',
      [{ ...at, kind: 'closed', fault: null, words: 'It was the cat.' }],
      ['Open it again', 'Add a note', 'All details', 'Bench'],
    ],
  ])('that %s offers what makes sense, six at most', (_, life, offered) => {
    const given = { ...row, life };
    expect(actionsOf(cardOf(given, known), given).map(({ title }) => title)).toEqual(offered);
    expect(wrong(ticket(given))).toEqual([]);
  });

  test('carries something else once it has changed, so that taking it a second time is no repetition of the first', () => {
    const taken: LifeEntry[] = [...row.life, { ...at, kind: 'taken' }];
    const freed: LifeEntry[] = [
      ...taken,
      { ...at, kind: 'closed', fault: null, words: 'x' },
      { ...at, kind: 'reopened', reason: 'y' },
    ];
    const press = (life: LifeEntry[]) =>
      actionsOf(cardOf({ ...row, life }, known), { ...row, life }).find(({ title }) => title === 'Take it');
    expect(foldLife(freed).takenBy).toBeNull();
    expect(press(row.life)!.data).not.toEqual(press(freed)!.data);
  });
});

const nasty = fc.oneof(
  fc.string({ unit: 'grapheme', maxLength: 300 }),
  fc.constantFrom(
    '<at>all</at> **x** [a](javascript:alert(1)) ![b](https://x.example/p.png) <b>&amp;\u202e',
    '{{DATE(2026-01-01T00:00:00Z,SHORT)}}',
    '&'.repeat(4000),
    'word '.repeat(900),
    'x\n'.repeat(700),
    '\ud83d'.repeat(300),
  ),
);

describe('whatever people write', () => {
  const row = some();

  test('fits, is shown as written, and is never read as a mark, a link or a mention', () => {
    fc.assert(
      fc.property(nasty, nasty, nasty, (opening, name, note) => {
        const life: LifeEntry[] = [
          ...row.life,
          { at: START, by: name, kind: 'note', text: `n ${note}` },
          { at: START, by: 'Ada', kind: 'answered', ask: 'a', text: opening },
        ];
        const hostile: TicketRow = {
          ...row,
          life,
          ticket: {
            ...row.ticket,
            opening,
            title: `t ${name}`,
            person: { ...row.ticket.person, name },
            suspects: row.ticket.suspects.map(each => ({ ...each, for: [opening, note] })),
            why: note,
          },
        };
        const cards = [ticket(hostile), ...pages(hostile)];
        expect(cards.flatMap(wrong)).toEqual([]);
        // Marks are read in TextBlocks only, and in those stands nothing of theirs.
        const blocks = cards.flatMap(card => found(card, 'TextBlock').map(({ text }) => text));
        for (const text of blocks) expect(text).toMatch(/^((Until|Opened) [^<[]*|Page \d+ of \d+)$/);
        expect(JSON.stringify(cards)).not.toMatch(/"type":"Image"|"type":"Action.OpenUrl"|\u202e/);
        const news = newsMessage(life, life, () => null, '');
        expect(wrongWith(news as Json)).toEqual([]);
        expect(news.text).not.toMatch(/[<>\u202e]|\]\(|!\[/);
      }),
      { numRuns: 40 },
    );
  });

  test('comes back in the form when it is refused', () => {
    const text = 'a "note" \\ <b>';
    const card = form(row, 'note', { before: { data: { 'i-text': text }, wrong: 'Too long.' } });
    expect(wrong(card)).toEqual([]);
    expect(found(card, 'Input.Text')[0]!.value).toBe(text);
    expect(textsOf(card)[0]).toBe('⚠ Too long.');
  });
});

describe('what happened', () => {
  test('calls who asked when the answer is there, and whom a ticket was handed to', () => {
    const life: LifeEntry[] = [
      { ...at, kind: 'asked', ask: 'a1', text: 'Which colour?' },
      { at: START, by: 'Ada', kind: 'answered', ask: 'a1', text: 'blue' },
      { ...at, kind: 'handed', to: 'Cy Marsh' },
    ];
    const ids = new Map([['Bo Lind', '29:bo']]);
    const { text, entities } = newsMessage(life, life, name => ids.get(name) ?? null, '');
    expect(text).toContain('<at>Bo Lind</at>');
    expect(entities).toEqual([
      { type: 'mention', text: '<at>Bo Lind</at>', mentioned: { id: '29:bo', name: 'Bo Lind' } },
    ]);
  });
});

describe('closing', () => {
  test('offers the suspected faults first, then what else causes this, and none of these with words', () => {
    const row = some();
    const [set] = found(form(row, 'close'), 'Input.ChoiceSet');
    const values = set!.choices.map((each: Json) => each.value);
    expect(values[0]).toBe(row.ticket.suspects[0]!.fault);
    expect(set!.choices[0].title).toBe(`Suspected: ${row.ticket.suspects[0]!.name}`);
    expect(values.at(-1)).toBe('-');
    expect(new Set(values)).toEqual(new Set([...Object.keys(faults), '-']));
  });
});

describe('the bench', () => {
  test.each(WORKINGS.map(({ id }) => id))('%s as a form, and what came out of its sample', id => {
    const working = WORKINGS.find(each => each.id === id)!;
    const about = { number: 1001, key: 'k'.repeat(150) };
    const values = valuesOf(working, working.example as Record<string, unknown>);
    expect(wrong(fillCard(working, about, {}, {}))).toEqual([]);
    expect(wrong(fillCard(working, about, values, { [Object.keys(values)[0]!]: 'Give a number.' }))).toEqual(
      [],
    );
    const filled = workForm(working, values);
    if (!filled.ok) throw new Error(JSON.stringify(filled.wrong));
    const result = resultCard(working, filled, values, about);
    expect(wrong(result)).toEqual([]);
    const texts = textsOf(result).join('\n');
    for (const sentence of filled.told.says) expect(texts).toContain(sentence);
    const [note, back] = (result as Json).actions;
    expect(note.data.values).toEqual(values);
    expect(back.data).toMatchObject({ v: 'desk:fill', values });
  });

  test('lists every desk flow and every working', () => {
    const card = benchCard({ number: 1001, key: 'k' }, knowledge.flows, 'Choose one first.');
    expect(wrong(card)).toEqual([]);
    const [topics, workings] = found(card, 'Input.ChoiceSet').map(({ choices }) => choices.map(valueIn));
    expect(topics).toEqual(Object.keys(knowledge.flows).filter(id => id.startsWith('desk-')));
    expect(workings).toEqual(WORKINGS.map(({ id }) => id));
  });
});

describe('outages', () => {
  const outage = {
    id: 'O-abc123',
    symptom: 'share-missing',
    site: Object.keys(site.sites)[0]!,
    text: 'x '.repeat(700),
    declaredBy: 'Bo Lind',
    declaredAt: START,
    endedAt: null,
  };

  test('are cards and forms that Teams draws', () => {
    const open = Array.from({ length: 20 }, (_, index) => ({ ...outage, id: `O-${index}` }));
    const cards = [
      outageForm(knowledge, open, 'k', { data: { 'i-text': 'x'.repeat(1500) }, wrong: 'Choose.' }),
      outageCard(outage, knowledge, 3),
      outageCard({ ...outage, endedAt: START }, knowledge, 1),
      overForm(outage.id, { conversation: '19:desk@thread.tacv2;messageid=1', id: '1' }),
      deskCard(),
      movedCard('R-1001'),
    ];
    expect(cards.flatMap(wrong)).toEqual([]);
  });
});

describe('a date and a time by somebody’s own clock', () => {
  // Offsets from the time zone database: Berlin +01:00, in summer +02:00; Kolkata +05:30; New York -05:00.
  test.each<[string, string, string | null, string]>([
    ['2026-11-25', '09:30', 'Europe/Berlin', '2026-11-25T08:30:00Z'],
    ['2026-07-01', '09:30', 'Europe/Berlin', '2026-07-01T07:30:00Z'],
    ['2026-10-25', '12:00', 'Europe/Berlin', '2026-10-25T11:00:00Z'],
    ['2026-03-29', '04:00', 'Europe/Berlin', '2026-03-29T02:00:00Z'],
    ['2026-11-25', '09:30', 'Asia/Kolkata', '2026-11-25T04:00:00Z'],
    ['2026-11-25', '21:30', 'America/New_York', '2026-11-26T02:30:00Z'],
    ['2026-11-25', '9:30', null, '2026-11-25T09:30:00Z'],
    ['2026-11-25', '09:30', 'Nowhere/Atall', '2026-11-25T09:30:00Z'],
  ])('%s %s in %s', (date, time, zone, moment) => {
    expect(new Date(momentOf(date, time, zone)).toISOString()).toBe(new Date(moment).toISOString());
  });

  test('that is none is none', () => {
    for (const [date, time] of [
      ['', ''],
      ['2026-13-45', '09:30'],
      ['tomorrow', '09:30'],
      ['2026-11-25', ''],
    ])
      expect(momentOf(date!, time!, 'Europe/Berlin')).toBeNaN();
  });
});

const valueIn = ({ value }: Json) => value;

/** Every element of a type. */
function found(value: Json, type: string): Json[] {
  if (Array.isArray(value)) return value.flatMap(each => found(each, type));
  if (typeof value !== 'object' || value === null) return [];
  return [
    ...(value.type === type ? [value] : []),
    ...Object.values(value).flatMap(each => found(each, type)),
  ];
}
