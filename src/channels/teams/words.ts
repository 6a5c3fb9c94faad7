/** The cards' own words in the person's language. What the flows and the desk say is not here. */
import { type Language, languageOf, shared } from '../words.ts';

const en = {
  ...shared.en,
  send: 'Send',
  choose: 'Choose an answer',
  words: 'Or write it below, as you would tell a colleague',
  answer: 'Your answer',
  number: (unit: string | null) => (unit === null ? 'A number' : `A number in ${unit}`),
  photo: 'Send a picture here: with the paperclip or the camera below.',
  answered: 'You',
  privately: 'answered, not shown here',
  passed: 'No answer is needed here any more.',
  ticket: 'Ticket',
  since: 'With the desk since',
  openHere: 'Everybody here reads along, but not what you type into my fields.',
  ownChat: 'Our own chat',
  notYours: (name: string) => `This was asked of ${name}. Mention me, and I ask you.`,
  somebody: 'somebody else',
  moved: 'This is about your machine and your files, so I have written to you in our own chat.',
  wait: 'One moment, it is on its way. The answer follows here.',
  unfetched: 'I could not get your file from Teams. Please send it once more, or describe what it shows.',
};

export type Words = typeof en;

const de: Words = {
  ...shared.de,
  send: 'Senden',
  choose: 'Eine Antwort wählen',
  words: 'Oder unten schreiben, wie Sie es einem Kollegen sagen würden',
  answer: 'Ihre Antwort',
  number: unit => (unit === null ? 'Eine Zahl' : `Eine Zahl in ${unit}`),
  photo: 'Schicken Sie hier ein Bild: unten mit der Büroklammer oder der Kamera.',
  answered: 'Sie',
  privately: 'beantwortet, hier nicht gezeigt',
  passed: 'Hier ist keine Antwort mehr nötig.',
  ticket: 'Ticket',
  since: 'Beim Service Desk seit',
  openHere: 'Hier lesen alle mit, aber nicht, was Sie in meine Felder schreiben.',
  ownChat: 'Unser eigener Chat',
  notYours: name => `Das wurde ${name} gefragt. Erwähnen Sie mich, dann frage ich Sie.`,
  somebody: 'jemand anderes',
  moved: 'Es geht um Ihr Gerät und Ihre Dateien, darum habe ich Ihnen in unserem eigenen Chat geschrieben.',
  wait: 'Einen Moment, es ist unterwegs. Die Antwort kommt hier.',
  unfetched:
    'Ich konnte Ihre Datei nicht von Teams holen. Bitte schicken Sie sie noch einmal, oder beschreiben Sie, was sie zeigt.',
};

const fr: Words = {
  ...shared.fr,
  send: 'Envoyer',
  choose: 'Choisir une réponse',
  words: 'Ou écrivez-le ci-dessous, comme à un collègue',
  answer: 'Votre réponse',
  number: unit => (unit === null ? 'Un nombre' : `Un nombre en ${unit}`),
  photo: "Envoyez une image ici : avec le trombone ou l'appareil photo ci-dessous.",
  answered: 'Vous',
  privately: 'répondu, non affiché ici',
  passed: "Ici, plus aucune réponse n'est nécessaire.",
  ticket: 'Ticket',
  since: "À l'assistance depuis",
  openHere: 'Tout le monde lit ici, mais pas ce que vous écrivez dans mes champs.',
  ownChat: 'Notre propre chat',
  notYours: name => `Cette question était pour ${name}. Mentionnez-moi, et je vous interroge.`,
  somebody: "quelqu'un d'autre",
  moved: 'Il s’agit de votre machine et de vos fichiers : je vous ai écrit dans notre propre conversation.',
  wait: 'Un instant, cela arrive. La réponse suit ici.',
  unfetched: "Je n'ai pas pu obtenir votre fichier de Teams. Renvoyez-le, ou décrivez ce qu'il montre.",
};

const es: Words = {
  ...shared.es,
  send: 'Enviar',
  choose: 'Elija una respuesta',
  words: 'O escríbalo abajo, como se lo diría a un colega',
  answer: 'Su respuesta',
  number: unit => (unit === null ? 'Un número' : `Un número en ${unit}`),
  photo: 'Envíe una imagen aquí: con el clip o la cámara de abajo.',
  answered: 'Usted',
  privately: 'respondido, no se muestra aquí',
  passed: 'Aquí ya no hace falta ninguna respuesta.',
  ticket: 'Ticket',
  since: 'Con el equipo de asistencia desde',
  openHere: 'Aquí leen todos, pero no lo que usted escribe en mis campos.',
  ownChat: 'Nuestro propio chat',
  notYours: name => `Esto se le preguntó a ${name}. Mencióneme y le pregunto a usted.`,
  somebody: 'otra persona',
  moved: 'Se trata de su equipo y de sus archivos, así que le he escrito en nuestro propio chat.',
  wait: 'Un momento, ya está en camino. La respuesta llega aquí.',
  unfetched: 'No pude obtener su archivo de Teams. Envíelo otra vez, o describa lo que muestra.',
};

const LANGUAGES: Record<Language, Words> = { en, de, fr, es };

export const wordsFor = (locale: string | null | undefined): Words => LANGUAGES[languageOf(locale)];

/** A time as the person's own clock shows it; UTC, said so, where the zone is not known. */
export function when(at: number, locale: string | null | undefined, zone: string | null | undefined): string {
  const options = { dateStyle: 'medium', timeStyle: 'short' } as const;
  const { language } = wordsFor(locale);
  const tag = (locale ?? '').toLowerCase().startsWith(language) ? locale! : language;
  try {
    if (zone) return new Intl.DateTimeFormat(tag, { ...options, timeZone: zone }).format(at);
  } catch {
    // A zone or tag that this machine does not know.
  }
  return `${new Intl.DateTimeFormat(language, { ...options, timeZone: 'UTC' }).format(at)} UTC`;
}
