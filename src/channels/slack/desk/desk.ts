/** The desk's side of Slack, put together: what it answers, and how it shows tickets. */
import type { Part } from '../app.ts';
import { deskActions } from './actions.ts';
import { type Board, board } from './board.ts';
import type { Desking } from './desking.ts';
import { gate } from './gate.ts';
import { opener, type Trigger, triggerOf } from './open.ts';
import { outageDesk } from './outage.ts';
import { workPart } from './work.ts';

export interface Desk extends Board {
  parts: Part[];
  start(): void;
  stop(): void;
}

export function desk(on: Desking): Desk {
  const gated = gate(on);
  const acting = { ...on, gate: gated, opener: opener(on, gated) };
  const actions = deskActions(acting);
  const outages = outageDesk(acting);
  const part: Part = {
    prefix: 'desk',
    action: async body => {
      const id = body.actions[0]?.action_id;
      if (id === 'desk:outage-over') return outages.end(body);
      return id === 'desk:outage' ? { after: () => outages.form(triggerOf(body)) } : actions.action(body);
    },
    view: async body => {
      if (body.view.callback_id !== 'desk:outage') return actions.view(body);
      return body.type === 'view_submission' ? outages.declare(body) : {};
    },
    shortcut: async body => ({ after: () => outages.form(body as unknown as Trigger) }),
  };
  const { start, stop } = gated;
  return { ...board(on, gated.userOf), parts: [part, workPart(acting)], start, stop };
}
