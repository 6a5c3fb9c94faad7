/** A desk's channel with technicians, and a person who turns to it, through the running server. */
import type { TicketRow } from '#store/store.ts';
import type { Post } from './fake.ts';
import { type FakeView, type Pressable, pressables, type SlackPerson } from './person.ts';
import { type SiteSettings, type SlackSite, slackSite, until } from './site.ts';

export const DESK = 'C0DESK001';
const OPENING = 'my laptop says no bootable device found';

export interface DeskSite extends SlackSite {
  bo: SlackPerson;
  cy: SlackPerson;
  /** Not of the desk. */
  eve: SlackPerson;
  /** Somebody new, whose matter has become a ticket; its card in the desk's channel. */
  ticket(): Promise<{ ada: SlackPerson; card: Post; number: number; row(): Promise<TicketRow> }>;
  /** What is in the thread below a card. */
  below(card: Post): Post[];
  /** Presses what bears this label on a message, and returns the form that opens. */
  opens(who: SlackPerson, post: Post, label: string): Promise<FakeView>;
  /** What was told to nobody but who acted. */
  whispered(): string;
}

/** What a message offers under this label. */
export function offered(post: { blocks: Post['blocks'] }, label: string): Pressable {
  const all = pressables(post.blocks);
  const found = all.find(each => each.label === label);
  if (found === undefined)
    throw new Error(`"${label}" is not among ${all.map(each => each.label).join(', ')}`);
  return found;
}

export const textOf = (post: { blocks: unknown }): string => JSON.stringify(post.blocks);

let people = 0;

export async function deskSite(given: SiteSettings = {}): Promise<DeskSite> {
  const site = await slackSite({ ...given, env: { SLACK_DESK_CHANNEL: DESK, ...given.env } });
  const { slack } = site;
  const somebody = (id: string, name: string) => {
    slack.users.set(id, { id, real_name: name, profile: { email: `${id.toLowerCase()}@test.example` } });
    return site.as(id);
  };
  const [bo, cy, eve] = [
    somebody('U0BO00001', 'Bo Lind'),
    somebody('U0CY00001', 'Cy Marsh'),
    somebody('U0EVE0001', 'Eve Stone'),
  ];
  slack.members.set(DESK, [bo.user, cy.user, slack.self]);
  const cards = () => slack.in(DESK).filter(({ thread }) => thread === null);
  return {
    ...site,
    bo,
    cy,
    eve,
    async ticket() {
      const ada = somebody(`U0ADA${String(people++).padStart(4, '0')}`, 'Ada Holm');
      const before = cards().length;
      await ada.say(OPENING);
      await until(() => ada.question());
      await ada.say('I want to talk to a person');
      const card = await until(() => cards()[before]);
      const number = Number(/R-(\d+)/.exec(card.text)![1]);
      await until(() => slack.in(DESK, card.ts).length > 0);
      return { ada, card, number, row: async () => (await site.store.ticket(number))! };
    },
    below: card => slack.in(DESK, card.ts),
    async opens(who, post, label) {
      const before = slack.views.length;
      await who.press(post, offered(post, label));
      return until(() => slack.views[before]);
    },
    whispered: () => String(slack.responses.at(-1)?.text ?? ''),
  };
}
