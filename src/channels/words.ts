/** What every chat says alike in the person's language: around the questions, whose words are the flows'. */

const en = {
  language: 'en',
  far: (shortest: number, longest: number) =>
    longest <= 1
      ? 'The last question'
      : shortest === longest
        ? `${longest} questions to go`
        : `${shortest} to ${longest} questions to go`,
  minutes: (count: number) => (count === 1 ? 'about 1 minute' : `about ${count} minutes`),
  tryThis: 'Please try this',
  careful: 'Careful',
  next: 'What happens next',
  do: 'Please do',
  dont: 'Please do not',
  skip: 'Skip this',
  help: 'What is meant?',
  back: 'Back',
  again: 'Start again',
  person: 'A person',
  stop: 'Stop',
};
export type Shared = typeof en;

const de: Shared = {
  language: 'de',
  far: (shortest, longest) =>
    longest <= 1
      ? 'Die letzte Frage'
      : shortest === longest
        ? `Noch ${longest} Fragen`
        : `Noch ${shortest} bis ${longest} Fragen`,
  minutes: count => (count === 1 ? 'etwa 1 Minute' : `etwa ${count} Minuten`),
  tryThis: 'Bitte versuchen Sie das',
  careful: 'Vorsicht',
  next: 'Wie es weitergeht',
  do: 'Bitte tun',
  dont: 'Bitte nicht tun',
  skip: 'Überspringen',
  help: 'Was ist gemeint?',
  back: 'Zurück',
  again: 'Von vorn',
  person: 'Ein Mensch',
  stop: 'Aufhören',
};

const fr: Shared = {
  language: 'fr',
  far: (shortest, longest) =>
    longest <= 1
      ? 'La dernière question'
      : shortest === longest
        ? `Encore ${longest} questions`
        : `Encore ${shortest} à ${longest} questions`,
  minutes: count => (count === 1 ? 'environ 1 minute' : `environ ${count} minutes`),
  tryThis: 'Essayez ceci, je vous prie',
  careful: 'Attention',
  next: 'La suite',
  do: 'À faire',
  dont: 'À ne pas faire',
  skip: 'Passer',
  help: "Qu'est-ce que cela veut dire ?",
  back: 'Retour',
  again: 'Recommencer',
  person: 'Une personne',
  stop: 'Arrêter',
};

const es: Shared = {
  language: 'es',
  far: (shortest, longest) =>
    longest <= 1
      ? 'La última pregunta'
      : shortest === longest
        ? `Quedan ${longest} preguntas`
        : `Quedan de ${shortest} a ${longest} preguntas`,
  minutes: count => (count === 1 ? 'alrededor de 1 minuto' : `alrededor de ${count} minutos`),
  tryThis: 'Pruebe esto, por favor',
  careful: 'Cuidado',
  next: 'Qué pasa ahora',
  do: 'Haga esto',
  dont: 'No haga esto',
  skip: 'Omitir',
  help: '¿Qué significa?',
  back: 'Atrás',
  again: 'Reiniciar',
  person: 'Una persona',
  stop: 'Parar',
};

export const shared = { en, de, fr, es };
export type Language = keyof typeof shared;

/** `locale`: a language tag such as `de-AT`, or as a profile has it. English where we have none for it; a strange one is no error. */
export const languageOf = (locale: string | null | undefined): Language => {
  const language = (locale ?? '').toLowerCase().split(/[-_]/)[0]!;
  return Object.hasOwn(shared, language) ? (language as Language) : 'en';
};
