/** Words of danger or an attack where no question is open that they could break into. Pure. */
import type { Sign } from '#engine/schema.ts';
import { hearInterrupts } from '#hearing/interrupts.ts';
import type { Knowledge } from './knowledge.ts';

/** The cautions of what the words tell for sure, but for the signs that are `known` already. */
export function alarming({ catalogue }: Knowledge, known: readonly Sign[], text: string): string[] {
  return hearInterrupts(catalogue.interrupts, text, null).flatMap(({ interrupt, sure }) => {
    const { sign, caution } = catalogue.interrupts[interrupt]!;
    return sure && (sign === 'danger' || sign === 'attack') && !known.includes(sign) ? [caution] : [];
  });
}
