/** The ticket of a conversation, worked out anew from its entries whenever something is added. */
import type { Catalogue, Site } from '#engine/catalogue.ts';
import type { Entry } from '#engine/entries.ts';
import { standing } from '#engine/fold.ts';
import { chosenShare } from '#engine/placeholders.ts';
import { type Keep, type Script, UNCLEAR } from '#engine/script.ts';
import type { State } from '#engine/state.ts';
import type { Person } from '#talk/inbound.ts';
import { fieldsOf } from './fields.ts';
import { historyOf } from './history.ts';
import { partsOf, planOf } from './plan.ts';
import { onlyCopy, priorityOf } from './priority.ts';
import { reference, type Ticket } from './schema.ts';
import { type Confirmed, hardwareOf, suspectsOf } from './suspects.ts';
import { thingOf } from './thing.ts';

export interface FillInput {
  number: number;
  state: State;
  script: Script | null;
  scriptHash: string | null;
  entries: readonly Entry[];
  person: Person & { channel: string };
  catalogue: Catalogue;
  site: Site;
  /** Closed tickets of this symptom that confirmed each fault. */
  confirmed: Confirmed;
  /** Epoch milliseconds, as is `now`. */
  openedAt: number;
  now: number;
  /** The outage that it is part of. */
  outage: string | null;
}

export function fileTicket(input: FillInput): Ticket {
  const { number, state, script, entries, catalogue, site } = input;
  const { symptom, signs, findings, outcome } = state;
  const { faults } = catalogue;
  const outranked = outrankedBy(catalogue, state);
  const suspects = suspectsOf(script, state, faults, input.confirmed, outranked?.faults);
  const isHardware = hardwareOf(suspects, signs);
  const couldNot = state.tried.some(({ result }) => result === 'could-not');
  const worked = priorityOf({
    symptom,
    findings,
    thing: thingOf(site, symptom, [state.opening, ...state.answers.map(({ words }) => words)], {
      chosen: chosenShare(state),
      others: OTHERS[findings['works-for-others'] ?? ''] ?? null,
    }),
    needsDesk: isHardware === 'yes' || isHardware === 'likely' || couldNot,
  });
  const { id, name, mail, channel } = input.person;
  return {
    format: 1,
    number,
    reference: reference(number),
    openedAt: input.openedAt,
    handedOverAt: outcome?.how === 'escalated' ? endedAt(entries) : null,
    updatedAt: input.now,
    person: { id, name, mail, channel },
    symptom,
    title: outranked?.title ?? titleOf(script, symptom, catalogue),
    opening: state.opening,
    screen: state.screen,
    fields: fieldsOf(script, state),
    answers: historyOf(script, entries, state),
    tried: state.tried.map(tried => ({ ...tried, shown: shownOf(state, tried.step) })),
    findings,
    signs,
    keep: keepOf(state),
    suspects,
    isHardware,
    ...worked,
    cautions: state.cautions.map(caution => ({
      id: caution,
      text: script?.cautions[caution]?.text ?? caution,
    })),
    plan: planOf({ suspects, faults, signs, onlyCopy: onlyCopy(findings) }),
    parts: partsOf(suspects, faults),
    worked: state.worked
      .filter(({ verdict, says }) => verdict !== UNCLEAR || says.length > 0)
      .map(({ step, working, verdict, says }) => ({ step, working, verdict, says })),
    attachments: attachmentsOf(state),
    outage: input.outage,
    flow: script && input.scriptHash ? { symptom: script.symptom, hash: input.scriptHash } : null,
    endedAs: outcome?.how ?? null,
    endedBecause: outcome?.because ?? null,
    endedWith: outcome?.text ?? null,
  };
}

/** What makes the symptom a side matter: a danger, else an attack. Who reads only titles must not read of a noisy drive. */
function outrankedBy({ interrupts }: Catalogue, { signs, findings }: Pick<State, 'signs' | 'findings'>) {
  const outranks = Object.values(interrupts)
    .filter(({ sign, outranks }) => outranks !== undefined && signs.includes(sign))
    .toSorted((one, other) => other.rank - one.rank)[0]?.outranks;
  const told = Object.entries(outranks?.where ?? {}).flatMap(
    ([finding, by]) => by[findings[finding] ?? ''] ?? [],
  );
  return told[0] ?? outranks;
}

function titleOf(script: Script | null, symptom: string | null, { symptoms }: Catalogue): string {
  if (script !== null && script.symptom === symptom) return script.title;
  return (symptom === null ? undefined : symptoms[symptom]?.title) ?? 'Not told yet';
}

/** Does it work for others? As the question about colleagues settles it. */
const OTHERS: Readonly<Record<string, 'fine' | 'hit'>> = { yes: 'fine', no: 'hit' };

/** When the entry came that ended the questions. Notes and the desk's own questions come after it. */
function endedAt(entries: readonly Entry[]): number | null {
  const ending = standing(entries).findLast(({ entry }) =>
    entry.kind === 'answer' ? entry.step !== '@desk' : ENDS.includes(entry.kind),
  );
  return ending?.entry.at ?? null;
}
const ENDS: readonly Entry['kind'][] = ['opened', 'interrupt', 'always', 'timer', 'script-withdrawn'];

const shownOf = (state: State, step: string): string =>
  state.answers.findLast(given => given.step === step)?.shown ?? '';

/** What to do with the power until somebody comes. Safety first, then the flow's own word, then what the signs call for. */
function keepOf({ signs, findings, outcome, symptom }: State): Keep | null {
  if (signs.includes('danger') || signs.includes('mechanical')) return 'off';
  if (outcome?.keep) return outcome.keep;
  // What is lost or stolen is nowhere to be kept on.
  if (signs.includes('attack')) return findings['attack-sign'] === 'lost' ? null : 'on';
  // PCs on a battery that runs empty are shut down in good order.
  if (symptom === 'raid-alarm') return findings.behind === 'pcs' ? null : 'as-it-is';
  if (!signs.includes('hardware-failure') && !signs.includes('suspect')) return null;
  return findings.power === 'on' ? 'on' : findings.power === 'off' ? 'off' : 'as-it-is';
}

/** Pictures and files, whether they answered a question or came by themselves. */
const attachmentsOf = ({ attachments }: State): Ticket['attachments'] =>
  attachments.map(({ id, name, type, bytes }) => ({ id, name, type, bytes }));
