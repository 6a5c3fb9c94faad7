/** What both receivers share: an acknowledgement is held back until everything that it stands for is committed. */
import type { Receiver, App as SlackApp } from '@slack/bolt';

/** What an acknowledgement carries: nothing, a text, or an object such as the errors of a form. */
export type Answer = string | Record<string, unknown> | undefined;

export interface Taken {
  answer: Answer;
  /** Did a listener acknowledge? An envelope of an unknown kind has none. */
  acknowledged: boolean;
}

export type Process = Pick<SlackApp, 'processEvent'>;

/** Runs the listeners and resolves with what they answered. Rejects when the turn was not committed: then nothing is acknowledged. */
export async function take(app: Process, body: Record<string, unknown>): Promise<Taken> {
  const taken: Taken = { answer: undefined, acknowledged: false };
  await app.processEvent({
    body,
    ack: async (answer: Answer) => {
      if (!taken.acknowledged) taken.answer = answer;
      taken.acknowledged = true;
    },
  });
  return taken;
}

export interface Held extends Receiver {
  /** Waits for what has begun, then closes. */
  stop(): Promise<void>;
}

/** Slack slows down what it sends us; there is nothing to take. */
export const isSlowedDown = (body: Record<string, unknown>): boolean => body.type === 'app_rate_limited';
