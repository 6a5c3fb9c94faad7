/** Words of danger, attack or a dying drive break into whatever is asked; where they may, and what happens then. */
import { advance, cautionText, openStep, type Saying, stepsOf, type Watch } from './advance.ts';
import type { Say } from './messages.ts';
import type { Question, Script } from './script.ts';
import type { State } from './state.ts';

/**
 * A sign that is raised already, danger or attack confirmed, or a higher one being asked about leaves no room for this one;
 * nor do questions of its own block.
 */
export function mayInterrupt(script: Script, state: State, id: string): boolean {
  const wanted = script.interrupts[id]?.about;
  if (wanted === undefined || state.frames.length === 0) return false;
  const { findings } = state;
  if (findings[wanted.sign] === 'yes' || findings.danger === 'yes') return false;
  if (findings.attack === 'yes' && wanted.sign !== 'danger') return false;
  if (openStep(script, state)?.within?.includes(id)) return false;
  return state.frames.every(frame => {
    const open = script.interrupts[frame.segment]?.about;
    return open === undefined || open.rank < wanted.rank;
  });
}

/**
 * Said again, it is asked again: what an earlier visit found out was about an earlier time. That goes for the block's own
 * questions; what the blocks it visits ask (which site, which files) has been answered and stands.
 */
export const asksAnew = (script: Script, id: string): string[] =>
  stepsOf(script, id).flatMap(step =>
    step.kind === 'ask' && !step.id.slice(id.length).includes('.') ? [step.finding] : [],
  );

/** Is it one of the questions of the interrupt's own, by which it is found out whether there is anything in it? */
export const decides = (script: Script, id: string, { finding }: Question): boolean =>
  asksAnew(script, id).includes(finding);

export function enter(script: Script, state: State, id: string, watch?: Watch): Saying[] {
  const about = script.interrupts[id]!.about;
  // What a picture shows can wait, and is not asked about in the middle of this.
  state.standing = state.standing.filter(other => other.step !== '@photo');
  for (const finding of asksAnew(script, id)) delete state.findings[finding];
  const said = cautionOf(script, state, about.caution);
  state.frames.push({ segment: id, at: 0 });
  return [...said, ...advance(script, state, watch)];
}

/** Says the words, and notes that they were said. */
export function cautionOf(script: Script, state: State, id: string): Say[] | Saying[] {
  const words = script.cautions[id];
  if (words === undefined) return [];
  const text = cautionText(words, state);
  if (!state.cautions.includes(id)) state.cautions.push(id);
  return [{ kind: 'caution', id, text }];
}
