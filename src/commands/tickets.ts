/** `reseat tickets`: the desk from a terminal. */
import { clean } from '#channels/terminal/render.ts';
import type { TicketFilter, TicketRow } from '#store/store.ts';
import { deliver } from '#talk/deliver.ts';
import type { DeskAction } from '#talk/inbound.ts';
import { declareOutage, endOutage } from '#talk/outages.ts';
import { byUrgency } from '#tickets/order.ts';
import { reference, ticketJsonSchema } from '#tickets/schema.ts';
import { ticketLine, ticketText } from '#tickets/text.ts';
import { UserError } from '../errors.ts';
import type { Shell, Wired } from './wired.ts';

/** R-1001, r1001 or 1001. */
export function numberOf(given: string): number {
  const match = /^(?:r-?)?(\d{1,9})$/i.exec(given.trim());
  if (match === null) throw new UserError(`"${clean(given)}" is no ticket number; they look like R-1001.`);
  return Number(match[1]);
}

async function using<T>(shell: Shell, work: (wired: Wired) => Promise<T>): Promise<T> {
  const wired = await shell.wire(false);
  try {
    return await work(wired);
  } finally {
    await wired.close();
  }
}

export async function rowOf(wired: Wired, given: string): Promise<TicketRow> {
  const row = await wired.store.ticket(numberOf(given));
  if (row === null)
    throw new UserError(`There is no ticket ${reference(numberOf(given))}. List them with: reseat tickets`);
  return row;
}

export const list = (shell: Shell, filter: TicketFilter, json: boolean): Promise<void> =>
  using(shell, async wired => {
    const rows = (await wired.store.tickets(filter)).toSorted(byUrgency);
    if (json) shell.output.write(`${JSON.stringify(rows.map(summary))}\n`);
    else if (rows.length === 0) shell.output.write('No such tickets.\n');
    else shell.output.write(`${rows.map(row => clean(ticketLine(row))).join('\n')}\n`);
  });

const summary = ({
  number,
  status,
  priority,
  symptom,
  site,
  takenBy,
  fault,
  outage,
  openedAt,
  updatedAt,
}: TicketRow) => ({
  ticket: reference(number),
  status,
  priority,
  symptom,
  site,
  takenBy,
  fault,
  outage,
  openedAt,
  updatedAt,
});

export const show = (shell: Shell, given: string, json: boolean): Promise<void> =>
  using(shell, async wired => {
    const row = await rowOf(wired, given);
    shell.output.write(
      json
        ? `${JSON.stringify({ ticket: row.ticket, life: row.life })}\n`
        : `${clean(ticketText(row.ticket, row.life))}\n`,
    );
  });

/** One action on one ticket, then what follows from it for other conversations. */
export const act = (
  shell: Shell,
  given: string,
  action: DeskAction,
  by: string | undefined,
  done: string,
): Promise<void> =>
  using(shell, async wired => {
    const row = await rowOf(wired, given);
    const turned = await wired.take({
      kind: 'desk',
      identity: `desk:${wired.id()}`,
      at: wired.now(),
      conversation: row.conversation,
      by: by ?? shell.user,
      action,
    });
    if (turned.kind === 'refused') throw new UserError(turned.why);
    await relay(wired);
    const fault = action.do === 'close' && action.fault !== null ? action.fault : null;
    const prevent = fault === null ? undefined : wired.knowledge().catalogue.faults[fault]?.prevent;
    shell.output.write(
      `${reference(row.number)}: ${done}\n${prevent === undefined ? '' : `So that it does not come again: ${prevent}\n`}`,
    );
  });

/** Carries what the action brought for other conversations; messages wait for the person's own channel. */
async function relay(wired: Wired): Promise<void> {
  const delivering = wired.delivering([]);
  while ((await deliver(delivering)) > 0);
}

export const declare = (
  shell: Shell,
  symptom: string,
  text: string,
  options: { site?: string; by?: string },
): Promise<void> =>
  using(shell, async wired => {
    const { catalogue, site } = wired.knowledge();
    if (!(symptom in catalogue.symptoms)) {
      throw new UserError(
        `There is no symptom "${clean(symptom)}". Use one of: ${Object.keys(catalogue.symptoms).join(', ')}.`,
      );
    }
    if (options.site !== undefined && !(options.site in site.sites)) {
      throw new UserError(
        `There is no site "${clean(options.site)}". Use one of: ${Object.keys(site.sites).join(', ')}.`,
      );
    }
    if (text.trim() === '') throw new UserError('Write in a sentence what people should be told.');
    const id = `O-${wired.id().slice(0, 6)}`;
    const told = await declareOutage(wired.turning, {
      id,
      symptom,
      site: options.site ?? null,
      text: text.trim(),
      declaredBy: options.by ?? shell.user,
      declaredAt: wired.now(),
      endedAt: null,
    });
    await relay(wired);
    shell.output.write(
      `Outage ${id} declared; conversations told: ${told}. End it with: reseat tickets outage-over ${id}\n`,
    );
  });

export const over = (shell: Shell, id: string, by: string | undefined): Promise<void> =>
  using(shell, async wired => {
    const told = await endOutage(wired.turning, id, by ?? shell.user);
    if (told === null)
      throw new UserError(`No open outage is called "${clean(id)}". List them with: reseat tickets outages`);
    await relay(wired);
    shell.output.write(`Outage ${id} is over; conversations told: ${told}.\n`);
  });

export const outages = (shell: Shell, json: boolean): Promise<void> =>
  using(shell, async wired => {
    const open = await wired.store.outages({ open: true });
    if (json) shell.output.write(`${JSON.stringify(open)}\n`);
    else if (open.length === 0) shell.output.write('No outage is open.\n');
    else {
      for (const { id, symptom, site, text, declaredBy } of open) {
        shell.output.write(
          `${clean(`${id}  ${symptom}  ${site ?? 'every site'}  ${text} (declared by ${declaredBy})`)}\n`,
        );
      }
    }
  });

export const schema = (shell: Shell): void => {
  shell.output.write(`${JSON.stringify(ticketJsonSchema(), null, 2)}\n`);
};
