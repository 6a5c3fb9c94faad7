/** In which language somebody writes, told by the small words that every sentence has. For a courtesy, so in doubt it is English. */
import { fold } from './words.ts';

export type Language = 'de' | 'fr' | 'es';

/** Words that another of the four languages has too are left out. */
const WORDS: Record<Language, ReadonlySet<string>> = {
  de: words(
    'der das ist nicht mein meine meinem meinen ich und auf mehr wird kein keine mit seit immer bei beim nach wie wo von aus nur noch oder aber sich einen eine einer dem zur zum vom haben hat kann mir uns bitte wenn weil rechner platte festplatte laufwerk bildschirm dateien ordner startet fahrt geht zeigt sagt ganz laut weg nein danke schon',
  ),
  fr: words(
    "le les est pas mon ma mes je et ne plus sur avec depuis dans une du au aux ce cette qui que pour ou mais il elle on nous vous peux peut ordinateur disque dur cle fichiers dossier ecran demarre marche fait dit s'il merci non oui j'ai c'est n'est d'un l'ordinateur",
  ),
  es: words(
    'el los las esta mi mis yo y se en con desde una del al que por para pero muy hay tengo puedo puede ordenador equipo disco duro archivos carpeta pantalla arranca funciona dice hace gracias si cuando ya sin lo porque',
  ),
};

/** Null: English, or too little to tell. */
export function languageOf(text: string): Language | null {
  const said =
    fold(text)
      .toLowerCase()
      .match(/[\p{L}'’]+/gu) ?? [];
  const counts = (['de', 'fr', 'es'] as const).map(language => ({
    language,
    count: said.filter(word => WORDS[language].has(word.replace('\u2019', "'"))).length,
  }));
  const english = said.filter(word => ENGLISH.has(word)).length;
  const [first, second] = counts.sort((a, b) => b.count - a.count);
  if (first === undefined || first.count < 2 || first.count <= english) return null;
  return first.count > (second?.count ?? 0) ? first.language : null;
}

const ENGLISH = words(
  'the is my it not and a an to of on in since when what does doesn from with i at after only there this that has have can cannot do no but was were be are for our we you he she they its you',
);

function words(text: string): ReadonlySet<string> {
  return new Set(text.split(' '));
}
