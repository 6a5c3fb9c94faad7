/** What an invoke is answered with, in the words of the protocol. Always well-formed: Teams shows people "something went wrong" else. */
import type { Answer } from './adapter.ts';
import type { CardAnswer, DialogAnswer } from './desk-side.ts';

export const CARD = 'application/vnd.microsoft.card.adaptive';

/** To adaptiveCard/action. */
export function cardAnswer(answer: CardAnswer): Answer {
  if ('card' in answer) return invoke({ statusCode: 200, type: CARD, value: answer.card });
  if ('words' in answer)
    return invoke({
      statusCode: 200,
      type: 'application/vnd.microsoft.activity.message',
      value: answer.words,
    });
  return invoke({
    statusCode: 400,
    type: 'application/vnd.microsoft.error',
    value: { code: 'BadRequest', message: answer.wrong },
  });
}

/** To task/fetch and task/submit. */
export function dialogAnswer(answer: DialogAnswer): Answer {
  if (answer === null) return { status: 200 };
  if ('words' in answer) return invoke({ task: { type: 'message', value: answer.words } });
  const { title, card, width = 'medium', height = 'large' } = answer;
  return invoke({
    task: { type: 'continue', value: { title, width, height, card: { contentType: CARD, content: card } } },
  });
}

const invoke = (body: unknown): Answer => ({ status: 200, body });
