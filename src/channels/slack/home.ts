/** The app's home: the open matter, past tickets, how to begin. */
import type { HomeView, KnownBlock } from '@slack/types';
import type { Site } from '#engine/catalogue.ts';
import type { Conversation, TicketRow } from '#store/store.ts';
import { reference } from '#tickets/schema.ts';
import { priorityInWords } from '#tickets/words.ts';
import { button, header, named } from './blocks.ts';
import type { Slack } from './client.ts';
import { cut, escaped, literal, marked } from './text.ts';
import type { Words } from './words.ts';

export interface Home {
  site: Site;
  /** The matter that has no outcome yet. */
  open: Pick<Conversation, 'number' | 'openedAt' | 'symptom'> | null;
  /** Newest first. */
  tickets: TicketRow[];
  titleOf(symptom: string): string;
}

const MOST_TICKETS = 10;

export function homeView(home: Home, words: Words, key: string): HomeView {
  const { site, open, tickets } = home;
  const { home: own } = words;
  const section = (text: string): KnownBlock => ({ type: 'section', text: marked(cut(text, 2900)) });
  const begin: KnownBlock[] = [
    section(own.how),
    { type: 'actions', elements: [button('say:begin', own.begin, 'home', 'primary')] },
  ];
  const going: KnownBlock[] =
    open === null
      ? begin
      : [
          header(own.open),
          {
            ...section(
              `*${nameOf(open)}* ${literal(aboutOf(open.symptom, home))}\n${own.since(dateOf(open.openedAt))}`,
            ),
            accessory: button('say:begin', own.goOn, 'home', 'primary'),
          } as KnownBlock,
        ];
  const past = tickets.slice(0, MOST_TICKETS).map(ticket => section(ticketLine(ticket, home, words)));
  const blocks: KnownBlock[] = [
    section(literal(own.about(site.organisation))),
    section(`⚠️ ${own.danger(literal(site.emergency.number))}`),
    { type: 'divider' },
    ...going,
    { type: 'divider' },
    header(own.past),
    ...(past.length > 0 ? past : [section(literal(own.none))]),
  ];
  return { type: 'home', callback_id: 'say:home', blocks: named(blocks, key) };
}

const aboutOf = (symptom: string | null, { titleOf }: Home) => (symptom === null ? '' : titleOf(symptom));
const nameOf = ({ number }: { number: number | null }) => (number === null ? '' : reference(number));

function ticketLine(ticket: TicketRow, home: Home, { home: own }: Words): string {
  const { number, status, takenBy, priority, symptom, openedAt } = ticket;
  const state = own.status[status] ?? status;
  const by = takenBy === null ? '' : ` (${literal(takenBy)})`;
  const title = literal(aboutOf(symptom, home));
  return `*${reference(number)}* ${title}\n${literal(state)}${by} · ${literal(priorityInWords(priority, home.site))} · ${own.since(dateOf(openedAt))}`;
}

/** Shown by Slack in each reader's own time zone and language; the rest is for clients that cannot. */
export function dateOf(at: number): string {
  const fallback = `${new Date(at).toISOString().slice(0, 16).replace('T', ' ')} UTC`;
  return `<!date^${Math.floor(at / 1000)}^{date_short_pretty} {time}|${escaped(fallback)}>`;
}

/** Publishes one home at a time for each person; of several wishes meanwhile the last one counts. */
export function homes(slack: Pick<Slack, 'call'>, viewOf: (team: string, user: string) => Promise<HomeView>) {
  const going = new Map<string, { again: boolean }>();
  return async (team: string, user: string): Promise<void> => {
    const place = `${team}:${user}`;
    const other = going.get(place);
    if (other !== undefined) {
      other.again = true;
      return;
    }
    const own = { again: true };
    going.set(place, own);
    try {
      for (let turn = 0; own.again && turn < 5; turn++) {
        own.again = false;
        await slack.call('views.publish', { user_id: user, view: await viewOf(team, user) });
      }
    } finally {
      going.delete(place);
    }
  };
}
