/** The bench plan of a ticket: its suspects and the catalogue's checks, put in order by the working of the same name. */
import type { Faults } from '#engine/catalogue.ts';
import { planning, type Step } from '#workings/plan/planning.ts';
import type { Plan, PlannedCheck, Suspect, Ticket } from './schema.ts';

export interface PlanInput {
  suspects: readonly Suspect[];
  faults: Faults;
  signs: Ticket['signs'];
  /** Would something be missed that nobody has seen anywhere else? */
  onlyCopy: boolean;
}

/** Below this share a fault is not worth a check of its own yet. Common practice, no source. */
const LEAST_SHARE = 0.01;
/** From this share on its parts are worth having at hand. Common practice, no source. */
const LIKELY = 0.1;

export function planOf({ suspects, faults, signs, onlyCopy }: PlanInput): Plan {
  const possible = suspects.map(({ fault, name, share }) => ({
    fault,
    name,
    share,
    failing: faults[fault]?.failing,
    checks: share < LEAST_SHARE ? [] : (faults[fault]?.checks ?? []),
  }));
  const { steps, expectedMinutes, held, heldBecause } = planning({ faults: possible, signs, onlyCopy });
  return { checks: steps.map(planned), expectedMinutes, held: held.map(planned), heldBecause };
}

const planned = ({ check, minutes, open, effect, looksFor }: Step): PlannedCheck => ({
  check,
  minutes,
  open,
  effect,
  looksFor,
});

/** Parts worth having at hand, those of the likeliest fault first. */
export function partsOf(suspects: readonly Suspect[], faults: Faults): string[] {
  const likely = suspects.filter(({ share }) => share >= LIKELY);
  return [...new Set(likely.flatMap(({ fault }) => faults[fault]?.parts ?? []))];
}
