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

describe('who writes in another language', () => {
  const first = (text: string) =>
    rehearse(knowledge)
      .say(text)
      .map(message => ('text' in message ? message.text : ''));

  test.each([
    ['Mein USB-Stick wird nicht erkannt, und ich brauche die Dateien', /^Ich verstehe Deutsch/],
    ["Ma clé USB n'est pas reconnue et mes fichiers sont dessus", /^Je comprends le français/],
    ['Mi disco duro externo no aparece y tengo los archivos en él', /^Entiendo español/],
  ])('hears once that they may go on in it: %s', (text, words) => {
    expect(first(text)[0]).toMatch(words);
  });

  test('hears of danger in it what comes first', () => {
    const said = first('Aus dem Rechner kommt Rauch, und es riecht verbrannt');
    expect(said.join(' ')).toMatch(/In Gefahr: weg davon, Alarm geben, 555-0199 anrufen/);
    expect(said.join(' ')).not.toContain('Ich verstehe Deutsch');
  });

  test('is told nothing of the kind in English', () => {
    expect(first('My USB stick is not recognised and I need the files').join(' ')).not.toMatch(
      /verstehe|comprends|Entiendo/,
    );
  });
});
