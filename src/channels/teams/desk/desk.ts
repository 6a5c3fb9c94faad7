/** The desk's side of Teams, put together: what it answers, and how it shows tickets. */
import type { Acted, CardAnswer, DeskSide, DialogAnswer } from '../desk-side.ts';
import { wordsOf } from '../heard.ts';
import { message } from '../render.ts';
import type { TeamsSettings } from '../settings.ts';
import { deskActs, NO_MORE } from './acts.ts';
import { benchDialogs } from './bench.ts';
import { board } from './board.ts';
import type { Desking, DeskNeeds } from './desking.ts';
import { gate } from './gate.ts';
import { outageDialogs } from './outage.ts';
import { deskCard } from './outage-cards.ts';
import { deskPlace } from './place.ts';

/** What somebody of the desk may say to Reseat in the desk's place; deploy/teams' manifest lists the same. */
export const COMMANDS: readonly string[] = ['desk', 'outage', 'bench'];
/** Milliseconds. */
const SENDING = 10_000;

export function deskSide(needs: DeskNeeds, conversation: string, settings: TeamsSettings): DeskSide {
  const { adapter, log } = needs;
  const place = deskPlace(conversation, settings);
  const going = new Set<Promise<void>>();
  const on: Desking = {
    ...needs,
    place,
    gate: gate(needs, place),
    behind(what, work) {
      const done = work()
        .then(() => undefined)
        .catch(error => log('teams-desk-lost', { what, error: String(error) }))
        .finally(() => going.delete(done));
      going.add(done);
    },
  };
  const acts = deskActs(on);
  const dialogs = { ...acts.dialogs, ...benchDialogs(on), ...outageDialogs(on) };

  async function dialog(acted: Acted): Promise<DialogAnswer> {
    place.learn(acted.reference);
    const asked = await on.gate.ask(acted.reference);
    if ('refused' in asked) return { words: asked.refused };
    return Object.hasOwn(dialogs, acted.verb) ? dialogs[acted.verb]!(acted, asked.by) : { words: NO_MORE };
  }

  const shows = board(on);
  return {
    async act(acted): Promise<CardAnswer> {
      place.learn(acted.reference);
      if (Object.hasOwn(dialogs, acted.verb)) return { words: NO_DIALOG };
      if (acted.verb !== 'desk:take') return { wrong: NO_MORE };
      const asked = await on.gate.ask(acted.reference);
      return 'refused' in asked ? { words: asked.refused } : acts.take(acted, asked.by);
    },
    open: dialog,
    submit: dialog,
    async heard(incoming) {
      const { reference } = incoming;
      if (!place.holds(reference)) return false;
      place.learn(reference);
      if (!COMMANDS.includes(wordsOf(incoming).toLowerCase().trim())) return false;
      const card = message(deskCard(), 'The desk');
      on.behind('desk-card', () => adapter.post(reference, card, AbortSignal.timeout(SENDING)));
      return true;
    },
    show: shows.show,
    trouble: shows.trouble,
    async stop() {
      await Promise.all(going);
    },
  };
}

const NO_DIALOG =
  'That opens a form, which Teams does not show here. Please use Teams on a computer or a phone.';
