/** A desk in Teams for a file of tests, and what they read off its dialogs. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect } from 'vitest';
import { message } from '#channels/teams/render.ts';
import { wrongWith } from './cards.ts';
import { type Desk, type Dialog, desk, type Standing, type Technician } from './desk.ts';
import { type Json, textsOf } from './teams.ts';

export interface Begun {
  site: Desk;
  database: string;
  ended(): Promise<void>;
}

export async function begun(): Promise<Begun> {
  const folder = mkdtempSync(join(tmpdir(), 'reseat-teams-'));
  const database = join(folder, 'reseat.db');
  const site = await desk(database);
  return {
    site,
    database,
    async ended() {
      // Whatever was sent in all of these: valid to an independent schema, within the limits, and drawn by the official library.
      expect(site.teams.wrong).toEqual([]);
      const sent = site.teams.calls.flatMap(({ what, body }) =>
        what === 'create' ? (body.activity ?? []) : what === 'post' || what === 'update' ? body : [],
      );
      expect([...new Set(sent.flatMap(wrongWith))]).toEqual([]);
      await site.close();
      rmSync(folder, { recursive: true });
    },
  };
}

export function afresh(site: Desk): void {
  site.teams.always(null);
  // What was learnt of the desk's members is old by now.
  site.later(60_000);
}

export const wordsIn = (dialog: Dialog): string =>
  dialog === null ? '' : 'words' in dialog ? dialog.words : textsOf(dialog.card).join('\n');
/** All details, page by page; each is a card that Teams draws. */
export async function pagesOf(who: Technician, card: Standing): Promise<string[]> {
  const seen: string[] = [];
  let page = await who.opens(card, 'All details');
  for (;;) {
    if (page === null || 'words' in page) throw new Error(wordsIn(page));
    expect(wrongWith(message(page.card, 'details') as Json)).toEqual([]);
    seen.push(wordsIn(page));
    if (!wordsIn(page).includes('Next page')) return seen;
    page = await who.sends(card, page, 'Next page');
  }
}
export const soon = (offset = 86_400_000) => {
  const [date, time] = new Date(Date.now() + offset).toISOString().split('T');
  return { 'until-date': date!, 'until-time': time!.slice(0, 5) };
};
