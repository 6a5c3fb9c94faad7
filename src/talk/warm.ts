/** What is made ready at its first use, made ready before anybody waits for it. Pure, a flow at a time. */
import { isDeskTopic } from '#engine/schema.ts';
import type { Knowledge } from './knowledge.ts';
import { rehearse } from './rehearse.ts';

/** Takes the first step of every flow; between them others may have their turn. */
export function* warm(knowledge: Knowledge): Generator<string> {
  for (const symptom of Object.keys(knowledge.flows)) {
    const words = knowledge.catalogue.symptoms[symptom]?.phrases[0];
    if (words === undefined || isDeskTopic(symptom)) continue;
    rehearse(knowledge).say(words);
    yield symptom;
  }
}
