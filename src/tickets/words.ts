/** A ticket in plain words for the person whose problem it is. */
import type { Site } from '#engine/catalogue.ts';
import type { HandOver } from '#engine/messages.ts';
import type { Sign } from '#engine/schema.ts';
import type { Script } from '#engine/script.ts';
import type { Life } from './life.ts';
import type { Priority, Ticket } from './schema.ts';

/** "high: somebody from the desk answers within 1 hour" */
export const priorityInWords = (priority: Priority, site: Site): string =>
  `${priority}: somebody from the desk answers ${site.desk.answers[priority]}`;

/** Where the ticket stands, for the person. */
export function statusInWords({ status, takenBy, handedTo }: Life): string {
  switch (status) {
    case 'open':
      return handedTo === null ? 'waiting for somebody from the desk' : `with ${handedTo} from the desk`;
    case 'taken':
      return `${takenBy} from the desk is working on it`;
    case 'waiting':
      return 'the desk is waiting for something before it goes on';
    case 'closed':
      return 'closed';
    case 'merged':
      return 'handled together with another report of the same';
  }
}

/** What the person is told when the desk takes over: number, priority, what happens next, what to do and not to do until then. */
export function handOverMessage(ticket: Ticket, site: Site, script: Script | null): HandOver {
  const lines = cautionLines(ticket, script);
  return {
    kind: 'hand-over',
    ticket: ticket.reference,
    priority: priorityInWords(ticket.priority, site),
    text: ticket.endedWith ?? 'I am handing this over to the desk, with everything you told me.',
    next: nextOf(ticket, site),
    do: unique([...keepDo(ticket), ...lines.do]),
    dont: unique([...keepDont(ticket), ...lines.dont]),
  };
}

function nextOf(ticket: Ticket, site: Site): string {
  const { desk, emergency, security } = site;
  const way =
    ticket.fields['contact.way'].state === 'known' ? 'the way you told me' : 'here in this conversation';
  const call = `If it becomes urgent, call ${desk.phone} and say **${ticket.reference}**.`;
  const parts = [
    ticket.signs.includes('danger') ? `Is anybody in danger: call **${emergency.number}** first.` : null,
    ticket.signs.includes('attack') ? `Tell ${security.contact} at once as well.` : null,
    `${desk.name} gets in touch ${way}, ${desk.answers[ticket.priority]} (${desk.hours}). They have your answers; nothing needs saying twice.`,
    call,
  ];
  return parts.filter(part => part !== null).join(' ');
}

const KEEP: Record<NonNullable<Ticket['keep']>, { do: string[]; dont: string[] }> = {
  off: { do: ['Leave it switched off.'], dont: ['Do not switch it on again, not even to test it.'] },
  on: { do: ['Leave it switched on.'], dont: ['Do not restart it, shut it down or let it sleep.'] },
  'as-it-is': { do: ['Leave it just as it is.'], dont: ['Do not switch, restart or unplug anything.'] },
};
/** A stick has no switch. */
const UNPLUGGED = {
  do: ['Leave it unplugged.'],
  dont: ['Do not plug it in again, not even to test it.'],
};
/** Nobody goes near it for the sake of a switch, and nobody was asked whether it is off. */
const DANGEROUS = {
  do: [
    'Is it off, leave it off. Is it still on: only its plug or charger at the socket, with dry hands, and only if nothing smokes.',
  ],
  dont: KEEP.off.dont,
};
/** It was asked for and could not be done. */
const STILL_ON = { do: ['Switch it off as soon as somebody can, and leave it off.'], dont: KEEP.off.dont };

function kept({ keep, findings, signs }: Ticket): (typeof KEEP)['off'] | null {
  // What is off already is not switched on for it.
  if (keep === 'on' && findings.power === 'off') return KEEP.off;
  if (keep !== 'off') return keep === null ? null : KEEP[keep];
  if (signs.includes('danger')) return DANGEROUS;
  if (findings.device === 'portable') return UNPLUGGED;
  return findings.power === 'on' ? STILL_ON : KEEP.off;
}
const keepDo = (ticket: Ticket) => kept(ticket)?.do ?? [];
const keepDont = (ticket: Ticket) => kept(ticket)?.dont ?? [];

/** Signs whose cautions hold whether the device is on or off. */
const EITHER_WAY: readonly Sign[] = ['danger', 'attack', 'mechanical', 'only-copy'];

function cautionLines(ticket: Ticket, script: Script | null): { do: string[]; dont: string[] } {
  if (script === null) return { do: [], dont: [] };
  const signs = new Map<string, Sign>();
  for (const { about } of Object.values(script.interrupts)) signs.set(about.caution, about.sign);
  for (const [sign, caution] of Object.entries(script.onSign)) signs.set(caution, sign as Sign);
  const off = ticket.cautions.findIndex(({ id }) => {
    const sign = signs.get(id);
    return (sign === 'danger' || sign === 'mechanical') && ticket.signs.includes(sign);
  });
  // What was said before it had to go off, such as to leave it on, must not be repeated.
  const said = ticket.cautions.filter(({ id }, index) => {
    const sign = signs.get(id);
    return index >= off || (sign !== undefined && EITHER_WAY.includes(sign));
  });
  // The last caution first: it answers to what is known by now.
  const words = said.toReversed().flatMap(({ id }) => script.cautions[id] ?? []);
  return { do: words.flatMap(each => each.do), dont: words.flatMap(each => each.dont) };
}

const unique = (lines: string[]): string[] => [...new Set(lines)];
