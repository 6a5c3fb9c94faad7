/** Which ticket comes first in a list. */
import { PRIORITIES, type Priority, type Ticket } from './schema.ts';

interface Listed {
  number: number;
  priority: Priority;
  ticket: Pick<Ticket, 'signs' | 'findings'>;
}

/** By priority; within critical danger, attack, still running, then the rest, and last what is safely off; then the older first. */
export const byUrgency = (one: Listed, other: Listed): number =>
  PRIORITIES.indexOf(one.priority) - PRIORITIES.indexOf(other.priority) ||
  within(one) - within(other) ||
  one.number - other.number;

function within({ priority, ticket: { signs, findings } }: Listed): number {
  if (priority !== 'critical') return 0;
  if (signs.includes('danger')) return 0;
  if (signs.includes('attack')) return 1;
  const failing = signs.some(sign => ['mechanical', 'hardware-failure', 'suspect'].includes(sign));
  if (!failing) return 3;
  return findings.power === 'off' ? 4 : 2;
}
