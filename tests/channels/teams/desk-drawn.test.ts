/** The desk's cards and dialogs as the official library draws them in a real browser, on a phone and on a desk. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { benchCard, fillCard, resultCard } from '#channels/teams/desk/bench-cards.ts';
import { ticketCard } from '#channels/teams/desk/card.ts';
import { detailsPage } from '#channels/teams/desk/details.ts';
import { formCard } from '#channels/teams/desk/forms.ts';
import { deskCard, overForm } from '#channels/teams/desk/outage-cards.ts';
import { message } from '#channels/teams/render.ts';
import { cardOf } from '#tickets/card.ts';
import { actForm, FORM_ACTS } from '#tickets/forms.ts';
import { WORKINGS } from '#workings/all.ts';
import { valuesOf, workForm } from '#workings/form.ts';
import { launch } from '../../support/browser.ts';
import { knowledge } from '../../support/knowledge.ts';
import { drawing, seenOn, WIDTHS } from '../../support/teams/drawing.ts';
import { actionsOf, type Json } from '../../support/teams/teams.ts';
import { ticketsIn, WALKED } from '../../support/walked.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

const { site, catalogue } = knowledge;
const known = { site, faults: catalogue.faults };

/** The last ticket of a walk of every flow, before and after it was taken and closed; the dialogs of one of them; every working. */
function cards(): unknown[] {
  const rows = WALKED.flatMap(flow => ticketsIn(flow).flatMap(all => all.at(-1) ?? [])[0] ?? []);
  const at = { at: 0, by: 'Bo Lind' };
  const lives = [
    [],
    [{ ...at, kind: 'taken' as const }],
    [{ ...at, kind: 'closed' as const, fault: null, words: 'x' }],
  ];
  const tickets = rows.flatMap(row =>
    lives.map(life => ticketCard(cardOf({ ...row, life }, known), { ...row, life }, true)),
  );
  const [row] = rows;
  const about = { number: 1001, key: 'k' };
  const filling = { number: 1001, key: 'k', colleagues: ['Bo Lind'], zone: null };
  const forms = FORM_ACTS.map(act =>
    formCard(actForm(act, row!, known.faults), {
      ...filling,
      act,
      before: { data: {}, wrong: 'Say why R-1001 can wait.' },
    }),
  );
  const workings = WORKINGS.flatMap(working => {
    const values = valuesOf(working, working.example as Record<string, unknown>);
    const filled = workForm(working, values);
    if (!filled.ok) throw new Error(JSON.stringify(filled.wrong));
    return [fillCard(working, about, {}, {}), resultCard(working, filled, values, about)];
  });
  const others = [benchCard(about, knowledge.flows, null), deskCard(), overForm('O-abc123', null)];
  return [...tickets, ...rows.map(each => detailsPage(each, 0)), ...forms, ...workings, ...others];
}

test.each(['phone', 'desk'] as const)(
  'on a %s nothing is cut off and every button can be read',
  async width => {
    const activities = cards().map(card => message(card, ''));
    const page = await drawing(browser, activities, width);
    const seen = await seenOn(page);
    await page.close();
    expect([...new Set(seen.cut)]).toEqual([]);
    expect(seen.width).toBeLessThanOrEqual(WIDTHS[width]);
    expect(seen.cards).toBe(activities.length);
    expect(seen.buttons).toBe(activities.flatMap(each => actionsOf(each as Json)).length);
  },
);
