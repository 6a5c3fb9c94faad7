/** Who describes it so that it can only be one thing, or one of a family, is not asked to choose between names. */
import { describe, expect, test } from 'vitest';
import { rehearse } from '#talk/rehearse.ts';
import { knowledge } from '../support/knowledge.ts';

const begun = (words: string) => {
  const talk = rehearse(knowledge);
  talk.say(words);
  return talk.conversation().symptom;
};

describe('first words that are nearly sure', () => {
  test.each([
    ['laptop wont start', /^boot-/],
    ['3 long beeps when i turn on pc. screen black', /^boot-/],
    ['the mac shows a folder with question mark', /^boot-/],
    ['G drive gone, red cross, i am at brackwater head office', /^share-missing$/],
  ])('%s begins at once', (words, symptom) => expect(begun(words)).toMatch(symptom));

  test.each(['how do I get to the airport', 'something is wrong'])('%s is asked about', words =>
    expect(begun(words)).toBeNull(),
  );
});
