/** A walk made by talking: every question is answered quietly, as somebody would whose drive is well. Pure. */
import type { Question } from '#engine/messages.ts';
import { flowFor, type Knowledge } from './knowledge.ts';
import { rehearse } from './rehearse.ts';
import { begin, type Walk } from './walk.ts';

/** More questions than any conversation has. */
const MOST = 60;

/** Null when the words do not lead straight to a flow of their own and to its end. */
export function recordWalk(
  knowledge: Knowledge,
  start: { opening: string } | { begins: string },
  walk: string,
): Walk | null {
  const rehearsal = rehearse(knowledge);
  if ('begins' in start) begin(rehearsal, start.begins);
  else rehearsal.say(start.opening);
  const says: Walk['says'] = [];
  for (let open = rehearsal.question(); open !== null; open = rehearsal.question()) {
    // A question that begins so is not the flow's: it was not sure what was meant.
    if (open.step.startsWith('@') || says.length === MOST) return null;
    const press = quietly(open);
    if (press === null) rehearsal.say(WORDS);
    else rehearsal.press(press);
    says.push(press === null ? { at: open.step, say: WORDS } : { at: open.step, press });
  }
  const { symptom, outcome } = rehearsal.conversation();
  if (outcome === null || flowFor(knowledge, symptom)?.script.symptom !== symptom) return null;
  return { walk, ...start, says, ends: outcome };
}

const WORDS = 'since this morning, nothing changed; room 2.14, 555-0123';

/** Answers by which nothing is in danger, by their id. */
const QUIET = ['none', 'laptop', 'done', 'here', 'seen', 'me-workaround', 'this-week', 'no'];

const quietly = ({ answers }: Question): string | null =>
  (answers.find(({ id }) => QUIET.includes(id)) ?? answers[0])?.id ?? null;
