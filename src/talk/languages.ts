/** What is said once to whoever writes in another language: the questions are in English, and may be answered in theirs. */
import { type Language, languageOf } from '#hearing/language.ts';
import { type Draft, notice } from './draft.ts';

const COURTESY: Record<Language, string> = {
  de: 'Ich verstehe Deutsch, frage aber auf Englisch; antworten Sie ruhig auf Deutsch. Lieber mit einem Menschen sprechen? Schreiben Sie *Person*.',
  fr: "Je comprends le français, mais je pose mes questions en anglais ; répondez en français si vous préférez. Vous voulez parler à quelqu'un ? Écrivez *personne*.",
  es: 'Entiendo español, pero pregunto en inglés; puede responder en español. ¿Prefiere hablar con alguien? Escriba *persona*.',
};

const DANGER: Record<Language, (number: string) => string> = {
  de: number => `**In Gefahr: weg davon, Alarm geben, ${number} anrufen.**`,
  fr: number => `**En danger : éloignez-vous, donnez l'alerte, appelez le ${number}.**`,
  es: number => `**En peligro: aléjese, dé la alarma, llame al ${number}.**`,
};

/** In the first words, and wherever danger is told of. */
export function inTheirLanguage(
  draft: Draft,
  words: string,
  { danger, first }: { danger: boolean; first: boolean },
): void {
  const language = languageOf(words);
  if (language === null) return;
  if (danger) notice(draft, DANGER[language](draft.knowledge.site.emergency.number));
  else if (first) notice(draft, COURTESY[language]);
}
