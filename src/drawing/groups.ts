/** Answers that lead to the same place share one arrow. */
import type { FlowStep, Sign } from '#engine/schema.ts';
import { isBranching, type WrittenAnswer } from './answers.ts';
import type { Arrow } from './arrows.ts';

export interface Group {
  to: Arrow['to'];
  /** Answers that raise and clear the same signs stand together. */
  parts: { answers: WrittenAnswer[]; raises: Sign[]; clears: Sign[] }[];
}

/** Endings first, then the farthest place, the next step last: so lines to far places pass outside those to near ones. */
export function groupsOf(step: FlowStep, answers: WrittenAnswer[], arrows: Arrow[]): Group[] {
  if (!isBranching(step)) return [];
  const groups = new Map<Arrow['to'] | null, Group['parts']>();
  for (const answer of answers) {
    const to = arrows.find(({ exit }) => typeof exit === 'object' && exit.answer === answer.id)?.to ?? null;
    const raises = step.raises?.[answer.id] ?? [];
    const clears = step.clears?.[answer.id] ?? [];
    const parts = groups.get(to) ?? [];
    groups.set(to, parts);
    const part = parts.find(other => same(other.raises, raises) && same(other.clears, clears));
    if (part === undefined) parts.push({ answers: [answer], raises, clears });
    else part.answers.push(answer);
  }
  return [...groups]
    .map(([to, parts]) => ({ to: to ?? ('out' as const), parts }))
    .sort((a, b) => rank(b.to) - rank(a.to));
}

const same = (a: readonly string[], b: readonly string[]) => a.join() === b.join();
const rank = (to: Arrow['to']) => (typeof to === 'number' ? to : to === 'out' ? 1e6 : 1e7);
