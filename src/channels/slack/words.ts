/** The channel's own words in the language of the person's profile. What the flows say is in the flows' language. */

import type { Always, OutcomeHow } from '#engine/entries.ts';
import { type Language, languageOf, shared } from '../words.ts';

const en = {
  ...shared.en,
  more: 'Under … on the right: back, start again, a person',
  choose: 'Choose an answer',
  write: 'Write your answer as a message.',
  number: (unit: string | null, range: string) =>
    `Write a number${unit === null ? '' : ` in ${unit}`}${range === '' ? '' : `, ${range}`}.`,
  picture:
    'Attach a picture to a message (PNG, JPEG or WebP, up to 10 MB). Place and time in it are taken out.',
  always: { back: 'Back', again: 'Start again', person: 'A person, please', stop: 'Stop here' } as Record<
    Always,
    string
  >,
  chose: (answer: string) => `✓ You answered: ${answer}`,
  passed: '– This question has passed.',
  change: 'Change this answer',
  ticket: (name: string) => `Ticket ${name}`,
  gone: 'That is no longer active. The newest question is at the end of our direct message; write there any time.',
  raised:
    'I have written to you in a direct message: what I ask is about your machine and your files, so it is for you alone.',
  solved: 'This is solved.',
  handed: (ticket: string) => `The desk takes over, as ticket ${ticket}.`,
  command: 'I have written to you in a direct message. Go on there.',
  unfetched: 'I could not get that file. Please send it again, here in our direct message.',
  home: {
    about: (organisation: string) =>
      `The storage help of ${organisation}: PCs that don't start, drives, USB sticks, network shares, lost files. A few short questions, your data first, and a person at any moment.`,
    begin: 'Say what is wrong',
    how: 'To begin, write to me under *Messages* as you would tell a colleague, with any message word for word. A photo of the screen helps.',
    open: 'Going on now',
    goOn: 'Go on',
    past: 'Your tickets',
    none: 'You have no tickets yet.',
    since: (date: string) => `since ${date}`,
    danger: (call: string) => `Something burns, smokes or is wet? Get away from it and call *${call}*.`,
    status: {
      open: 'with the desk',
      taken: 'somebody is on it',
      waiting: 'waiting',
      closed: 'closed',
    } as Record<string, string>,
    ended: { fixed: 'solved', escalated: 'with the desk' } as Partial<Record<OutcomeHow, string>>,
  },
};

export type Words = typeof en;

const de: Words = {
  ...shared.de,
  more: 'Unter … rechts: zurück, von vorn, ein Mensch',
  choose: 'Antwort wählen',
  write: 'Schreiben Sie Ihre Antwort als Nachricht.',
  number: (unit, range) =>
    `Schreiben Sie eine Zahl${unit === null ? '' : ` in ${unit}`}${range === '' ? '' : `, ${range}`}.`,
  picture:
    'Hängen Sie ein Bild an eine Nachricht (PNG, JPEG oder WebP, bis 10 MB). Ort und Zeit darin werden entfernt.',
  always: { back: 'Zurück', again: 'Von vorn', person: 'Ein Mensch, bitte', stop: 'Hier aufhören' },
  chose: answer => `✓ Ihre Antwort: ${answer}`,
  passed: '– Diese Frage ist vorbei.',
  change: 'Diese Antwort ändern',
  ticket: name => `Ticket ${name}`,
  gone: 'Das gilt nicht mehr. Die neueste Frage steht am Ende unserer Direktnachricht; schreiben Sie dort jederzeit.',
  raised:
    'Ich habe Ihnen eine Direktnachricht geschrieben: Es geht um Ihr Gerät und Ihre Dateien, also nur um Sie.',
  solved: 'Das ist gelöst.',
  handed: ticket => `Der Service Desk übernimmt, als Ticket ${ticket}.`,
  command: 'Ich habe Ihnen eine Direktnachricht geschrieben. Dort geht es weiter.',
  unfetched:
    'Diese Datei konnte ich nicht holen. Bitte schicken Sie sie noch einmal, hier in unserer Direktnachricht.',
  home: {
    about: organisation =>
      `Die Speicherhilfe von ${organisation}: PCs, die nicht starten, Laufwerke, USB-Sticks, Netzlaufwerke, verschwundene Dateien. Ein paar kurze Fragen, Ihre Daten zuerst, und jederzeit ein Mensch.`,
    begin: 'Sagen, was los ist',
    how: 'Schreiben Sie mir unter *Nachrichten* wie einem Kollegen, Meldungen Wort für Wort. Ein Foto des Bildschirms hilft. Die Fragen sind englisch; antworten können Sie auf Deutsch.',
    open: 'Geht gerade',
    goOn: 'Weiter',
    past: 'Ihre Tickets',
    none: 'Sie haben noch keine Tickets.',
    since: date => `seit ${date}`,
    danger: call =>
      `Brennt oder raucht etwas, ist etwas nass? Gehen Sie weg davon und rufen Sie *${call}* an.`,
    status: { open: 'beim Service Desk', taken: 'jemand ist dran', waiting: 'wartet', closed: 'geschlossen' },
    ended: { fixed: 'gelöst', escalated: 'beim Service Desk' },
  },
};

const fr: Words = {
  ...shared.fr,
  more: 'Sous … à droite : retour, recommencer, une personne',
  choose: 'Choisir une réponse',
  write: 'Écrivez votre réponse dans un message.',
  number: (unit, range) =>
    `Écrivez un nombre${unit === null ? '' : ` en ${unit}`}${range === '' ? '' : `, ${range}`}.`,
  picture:
    "Joignez une image à un message (PNG, JPEG ou WebP, 10 Mo au plus). Le lieu et l'heure en sont retirés.",
  always: { back: 'Retour', again: 'Recommencer', person: "Quelqu'un, s'il vous plaît", stop: 'Arrêter ici' },
  chose: answer => `✓ Votre réponse : ${answer}`,
  passed: '– Cette question est passée.',
  change: 'Changer cette réponse',
  ticket: name => `Ticket ${name}`,
  gone: "Ceci n'est plus actif. La dernière question est à la fin de notre message direct ; écrivez-y à tout moment.",
  raised:
    'Je vous ai écrit en message direct : il s’agit de votre machine et de vos fichiers, donc de vous seul.',
  solved: "C'est résolu.",
  handed: ticket => `L'assistance prend le relais : ticket ${ticket}.`,
  command: 'Je vous ai écrit en message direct. Continuez là-bas.',
  unfetched: "Je n'ai pas pu obtenir ce fichier. Renvoyez-le ici, dans notre message direct.",
  home: {
    about: organisation =>
      `L'aide au stockage de ${organisation} : PC qui ne démarrent pas, disques, clés USB, partages réseau, fichiers perdus. Quelques questions courtes, vos données d'abord, et quelqu'un à tout moment.`,
    begin: 'Dire ce qui ne va pas',
    how: "Écrivez-moi sous *Messages* comme à un collègue, avec tout message mot pour mot. Une photo de l'écran aide. Les questions sont en anglais ; vous pouvez répondre en français.",
    open: 'En cours',
    goOn: 'Continuer',
    past: 'Vos tickets',
    none: "Vous n'avez pas encore de ticket.",
    since: date => `depuis ${date}`,
    danger: call => `Quelque chose brûle, fume ou est mouillé ? Éloignez-vous et appelez le *${call}*.`,
    status: {
      open: "à l'assistance",
      taken: "quelqu'un s'en occupe",
      waiting: 'en attente',
      closed: 'fermé',
    },
    ended: { fixed: 'résolu', escalated: "à l'assistance" },
  },
};

const es: Words = {
  ...shared.es,
  more: 'En … a la derecha: atrás, empezar de nuevo, una persona',
  choose: 'Elegir una respuesta',
  write: 'Escriba su respuesta en un mensaje.',
  number: (unit, range) =>
    `Escriba un número${unit === null ? '' : ` en ${unit}`}${range === '' ? '' : `, ${range}`}.`,
  picture: 'Adjunte una imagen a un mensaje (PNG, JPEG o WebP, hasta 10 MB). Se quitan el lugar y la hora.',
  always: { back: 'Atrás', again: 'Empezar de nuevo', person: 'Una persona, por favor', stop: 'Parar aquí' },
  chose: answer => `✓ Su respuesta: ${answer}`,
  passed: '– Esta pregunta ya pasó.',
  change: 'Cambiar esta respuesta',
  ticket: name => `Ticket ${name}`,
  gone: 'Eso ya no está activo. La última pregunta está al final de nuestro mensaje directo; escriba allí cuando quiera.',
  raised:
    'Le he escrito en un mensaje directo: se trata de su equipo y sus archivos, así que es solo para usted.',
  solved: 'Esto está resuelto.',
  handed: ticket => `El servicio de ayuda se encarga, con el ticket ${ticket}.`,
  command: 'Le he escrito en un mensaje directo. Siga allí.',
  unfetched: 'No pude obtener ese archivo. Envíelo otra vez, aquí en nuestro mensaje directo.',
  home: {
    about: organisation =>
      `La ayuda de almacenamiento de ${organisation}: PC que no arrancan, discos, memorias USB, carpetas de red, archivos perdidos. Unas preguntas cortas, primero sus datos, y una persona en cualquier momento.`,
    begin: 'Decir qué pasa',
    how: 'Escríbame en *Mensajes* como a un colega, con los mensajes palabra por palabra. Una foto de la pantalla ayuda. Las preguntas están en inglés; puede responder en español.',
    open: 'En curso',
    goOn: 'Seguir',
    past: 'Sus tickets',
    none: 'Aún no tiene tickets.',
    since: date => `desde ${date}`,
    danger: call => `¿Algo arde, echa humo o está mojado? Aléjese y llame al *${call}*.`,
    status: {
      open: 'en el servicio de ayuda',
      taken: 'alguien se ocupa',
      waiting: 'en espera',
      closed: 'cerrado',
    },
    ended: { fixed: 'resuelto', escalated: 'en el servicio de ayuda' },
  },
};

const LANGUAGES: Record<Language, Words> = { en, de, fr, es };

export const wordsFor = (locale: string | null | undefined): Words => LANGUAGES[languageOf(locale)];
