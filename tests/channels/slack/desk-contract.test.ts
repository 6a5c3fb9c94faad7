/** Everything that the desk is shown, of the tickets of every walk of every flow and of hostile ones, within Slack's limits. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cardMessage, detailBlocks, detailsMessage, newsMessage } from '#channels/slack/desk/card.ts';
import { actForm, modal } from '#channels/slack/desk/forms.ts';
import { outageForm, outageMessage } from '#channels/slack/desk/outage.ts';
import { benchView, fillView, resultView } from '#channels/slack/desk/work-form.ts';
import { literal } from '#channels/slack/text.ts';
import type { TicketRow } from '#store/store.ts';
import { cardOf } from '#tickets/card.ts';
import { FORM_ACTS } from '#tickets/forms.ts';
import { type LifeEntry, PRIORITIES } from '#tickets/schema.ts';
import { sectionsOf } from '#tickets/sections.ts';
import { WORKINGS } from '#workings/all.ts';
import { valuesOf, workForm } from '#workings/form.ts';
import { knowledge } from '../../support/knowledge.ts';
import { wrongMessage, wrongView } from '../../support/slack/limits.ts';
import { ticketsIn, WALKED } from '../../support/walked.ts';
import { START } from '../../tickets/sample.ts';

const { site, catalogue } = knowledge;
const { faults } = catalogue;
const known = { site, faults };

const wrongWith = (row: TicketRow): string[] => [
  ...wrongMessage(cardMessage(cardOf(row, known), row, 't1', true)),
  ...wrongMessage(detailsMessage(row, 't1d')),
  ...(row.life.length === 0 ? [] : wrongMessage(newsMessage(row.life, row.life, () => 'U0SOMEONE'))),
  ...wrongView(modal('R-1', detailBlocks(row))),
  ...FORM_ACTS.flatMap(act => wrongView(actForm(act, row, faults))),
];

describe.each(WALKED)('%s', flow => {
  test('its tickets fit, and every line of what is stored is among the details (B3)', () => {
    const tickets = ticketsIn(flow).flat();
    expect([...new Set(tickets.flatMap(wrongWith))]).toEqual([]);
    for (const row of tickets) {
      const drawn = detailBlocks(row)
        .map(block => (block.type === 'section' ? block.text!.text : ''))
        .join('\n');
      const lines = sectionsOf(row.ticket, row.life).flatMap(each => each.lines);
      const missing = lines.filter(
        ({ text }) => !drawn.includes(literal(text.split('\n')[0]!.slice(0, 400))),
      );
      expect(missing).toEqual([]);
    }
  });
});

/** Something to change: a ticket of a whole conversation. */
const some = (): TicketRow => ticketsIn('drive-noise').flat().at(-1)!;
const nasty = fc.oneof(
  fc.string({ unit: 'grapheme', maxLength: 300 }),
  fc.constantFrom(
    '<!channel> <@U1> *b* `c` <https://x|y> &amp;',
    '&'.repeat(4000),
    '>'.repeat(3001),
    '\n'.repeat(500),
    '👩‍🔧'.repeat(900),
    '```',
  ),
);

describe('whatever people write', () => {
  const row = some();

  test('fits, and calls, links and formats nobody and nothing', () => {
    fc.assert(
      fc.property(nasty, nasty, nasty, fc.constantFrom(...PRIORITIES), (opening, name, note, priority) => {
        const life: LifeEntry[] = [
          ...row.life,
          { kind: 'note', at: START, by: name, text: `n ${note}` },
          { kind: 'closed', at: START, by: name, fault: null, words: note },
        ];
        const suspects = row.ticket.suspects.map(each => ({ ...each, for: [opening, note] }));
        const hostile = {
          ...row,
          priority,
          life,
          ticket: {
            ...row.ticket,
            opening,
            title: name,
            person: { ...row.ticket.person, name },
            suspects,
            why: note,
          },
        };
        for (const given of [hostile, { ...hostile, life: row.life }]) {
          expect(wrongWith(given)).toEqual([]);
          const { text, blocks } = cardMessage(cardOf(given, known), given, 't1', false);
          const said = `${text}${JSON.stringify([blocks, detailBlocks(given)].flat().filter(({ type }) => type === 'section'))}`;
          expect(said).not.toMatch(/<[!@#h]/);
          expect(newsMessage(life, life, () => null).text).not.toMatch(/<[!@#h]/);
        }
      }),
      { numRuns: 60 },
    );
  });
});

describe('forms', () => {
  test('of every working fit, empty, and with what came out of its sample', () => {
    for (const working of WORKINGS) {
      expect(wrongView(fillView(working, 1001))).toEqual([]);
      const values = valuesOf(working, working.example as Record<string, unknown>);
      const filled = workForm(working, values);
      if (!filled.ok) throw new Error(JSON.stringify(filled.wrong));
      const view = resultView(working, filled, values, 1001);
      expect(wrongView(view)).toEqual([]);
      const { note } = JSON.parse(view.private_metadata!);
      expect(note).toContain(filled.told.says[0]);
      const drawn = JSON.stringify(view.blocks)
        .replaceAll('&amp;', '&')
        .replaceAll('&lt;', '<')
        .replaceAll('&gt;', '>');
      for (const sentence of filled.told.says)
        expect(drawn).toContain(JSON.stringify(sentence).slice(1, -1).slice(0, 60));
    }
  });

  test('of a long result fit, and its note can still be carried', () => {
    const array = WORKINGS.find(({ id }) => id === 'array')!;
    const values = {
      level: '60',
      members: '512',
      groups: '64',
      failed: Array.from({ length: 64 }, (_, at) => at * 8 + 1).join(', '),
      capacityTB: '8',
    };
    const filled = workForm(array, values);
    if (!filled.ok) throw new Error(JSON.stringify(filled.wrong));
    const told = { ...filled.told, says: Array.from({ length: 40 }, () => '"\\<&>\n'.repeat(60)) };
    expect(wrongView(resultView(array, { ...filled, told }, values, 1001))).toEqual([]);
  });

  test('of the bench and of outages fit, with many sites and many outages', () => {
    const many = Object.fromEntries(
      Array.from({ length: 300 }, (_, at) => [
        `site-${at}`,
        { name: `Site ${at}`, time_zone: 'Europe/London' },
      ]),
    );
    const outage = {
      id: 'O-1',
      symptom: 'share-missing',
      site: null,
      text: '&'.repeat(1500),
      declaredBy: '<@U1>',
      declaredAt: START,
      endedAt: null,
    };
    const open = Array.from({ length: 40 }, () => outage);
    expect(wrongView(outageForm({ catalogue, site: { ...site, sites: many } }, open))).toEqual([]);
    expect(wrongView(benchView(1001, knowledge.flows))).toEqual([]);
    expect(wrongView(benchView(null, knowledge.flows))).toEqual([]);
    for (const endedAt of [null, START])
      expect(wrongMessage(outageMessage({ ...outage, endedAt }, 'x'.repeat(90), 'y'.repeat(90), 3))).toEqual(
        [],
      );
  });
});
