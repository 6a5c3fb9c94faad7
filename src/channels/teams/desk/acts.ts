/** What a technician does to a ticket from its card: at once, or by a form. */
import type { TicketRow } from '#store/store.ts';
import { type CardAct, cardOf } from '#tickets/card.ts';
import { ACT_LABELS, actForm, actionOf, type FormAct, isFormAct } from '#tickets/forms.ts';
import { reference } from '#tickets/schema.ts';
import type { Acted, CardAnswer, DialogAnswer } from '../desk-side.ts';
import { partsOf } from './board.ts';
import { moreOf, movedCard, ticketCard } from './card.ts';
import type { Desking } from './desking.ts';
import { detailsPage } from './details.ts';
import { buttons, cardWith, sends } from './draw.ts';
import { formCard, meantBy } from './forms.ts';

export const NO_MORE = 'That button is no longer in use. The card shows what can be done now.';

/** A dialog of the desk's: by whom it was asked for is settled. */
export type Dialog = (acted: Acted, by: string) => Promise<DialogAnswer>;

export interface Acts {
  take(acted: Acted, by: string): Promise<CardAnswer>;
  dialogs: Record<string, Dialog>;
}

export function deskActs(on: Desking): Acts {
  const { store, knowledge, gate, place } = on;
  const known = () => ({ site: knowledge().site, faults: knowledge().catalogue.faults });

  async function take(acted: Acted, by: string): Promise<CardAnswer> {
    const row = await rowOf(acted);
    if (row === null) return { words: missing(acted) };
    const { identity, at } = acted;
    const { conversation } = row;
    const took = await on.take({ kind: 'desk', identity, at, conversation, by, action: { do: 'take' } });
    return took.kind === 'refused' ? { words: took.why } : { card: await standing(acted, row.number) };
  }

  /** The card that stands where it was pressed from now on. */
  async function standing({ card }: Acted, number: number): Promise<unknown> {
    const row = (await store.ticket(number))!;
    const ref = await store.cardRef(`teams:desk:${place.conversation}`, row.conversation);
    if (ref !== null && card !== null && partsOf(ref)[1] !== card) return movedCard(reference(number));
    return ticketCard(cardOf(row, known()), row, false);
  }

  const rowOf = async ({ data: { n } }: Acted): Promise<TicketRow | null> =>
    Number.isSafeInteger(n) ? store.ticket(n as number) : null;

  /** With the ticket that it is about. */
  const about =
    (dialog: (acted: Acted, row: TicketRow, by: string) => Promise<DialogAnswer>): Dialog =>
    async (acted, by) => {
      const row = await rowOf(acted);
      return row === null ? { words: missing(acted) } : dialog(acted, row, by);
    };

  async function form(
    acted: Acted,
    act: FormAct,
    row: TicketRow,
    before: { data: Record<string, unknown>; wrong: string } | null,
  ): Promise<DialogAnswer> {
    const { faults } = known();
    const drawn = actForm(act, row, faults);
    const colleagues = act === 'hand' ? await gate.colleagues() : [];
    const { number } = row;
    const key = before === null ? `${acted.identity}:${on.now()}` : String(acted.data.f);
    return {
      title: `${reference(number)}: ${drawn.title}`,
      card: formCard(drawn, { act, number, key, colleagues, zone: acted.zone, before }),
      height: 'medium',
    };
  }

  return {
    take,
    dialogs: {
      'desk:form': about(async (acted, row) => {
        const act = String(acted.data.a);
        return isFormAct(act) ? form(acted, act, row, null) : { words: NO_MORE };
      }),
      'desk:do': about(async (acted, row, by) => {
        const { data, identity, at, zone } = acted;
        const act = String(data.a);
        if (!isFormAct(act)) return { words: NO_MORE };
        const action = actionOf(act, meantBy(data, zone));
        const took = await on.take({
          kind: 'desk',
          identity,
          at,
          conversation: row.conversation,
          by,
          action,
        });
        return took.kind === 'refused' ? form(acted, act, row, { data, wrong: took.why }) : null;
      }),
      'desk:details': about(async ({ data }, row) => ({
        title: reference(row.number),
        card: detailsPage(row, Number(data.p ?? 0)),
        width: 'large',
      })),
      'desk:more': about(async (_acted, row) => {
        const { number } = row;
        const button = (act: CardAct) =>
          buttons([sends(ACT_LABELS[act], { v: 'desk:form', a: act, n: number })]);
        const bench = buttons([sends('Bench', { v: 'desk:bench', n: number })]);
        const title = `${reference(number)}: more`;
        const offered = moreOf(cardOf(row, known()).acts).map(button);
        return { title, card: cardWith([...offered, bench], [], title), height: 'small' };
      }),
    },
  };
}

const missing = ({ data: { n } }: Acted): string =>
  Number.isSafeInteger(n) ? `There is no ticket ${reference(n as number)} any more.` : NO_MORE;
