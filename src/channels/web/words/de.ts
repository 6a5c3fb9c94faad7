import { shared } from '../../words.ts';
import { html } from '../html.ts';
import type { Words } from './words.ts';

export const de: Words = {
  ...shared.de,
  name: 'Speicherhilfe',
  title: organisation => `Speicherhilfe, ${organisation}`,
  skipToQuestion: 'Zur Frage',
  emergency: 'Notruf',

  firstTitle: 'Was ist los?',
  firstFor:
    'Für PCs, die nicht starten, Laufwerke, USB-Sticks, Netzlaufwerke, verschwundene Dateien. Ein paar kurze Fragen, Ihre Daten zuerst; wo jemand Hand anlegen muss, übernimmt der Service Desk. Die Fragen sind englisch; antworten können Sie auf Deutsch.',
  firstNot: 'Nicht für Passwörter, Drucker, Telefone oder anderes:',
  firstElsewhere: 'wer dabei hilft',
  firstDanger:
    'Brandgeruch, Rauch, Flüssigkeit im Gerät, ein geblähter Akku? Gehen Sie weg davon und rufen Sie an:',
  firstBox: 'Wie einem Kollegen; Meldungen Wort für Wort',
  firstKeep: 'Ohne Anmeldung. Dieser Browser merkt sich, wo Sie waren.',

  you: 'Sie',
  bot: 'Reseat',
  sendWords: 'Senden',
  boxOpening: 'Was ist das Problem?',
  boxChoice: 'Oder in eigenen Worten',
  boxText: 'Ihre Antwort',
  boxEnded: 'Hier können Sie jederzeit schreiben',
  picture: 'Bild oder Datei hinzufügen',
  file: name => `Datei: ${name}`,
  sendPicture: 'Bild senden',
  pictureOf: name => `Ihr Bild: ${name}`,
  takePicture: 'Bild aufnehmen oder auswählen',
  pictureKinds: 'PNG, JPEG oder WebP, bis 10 MB. Ort und Zeit der Aufnahme werden entfernt.',
  number: unit => `Eine Zahl in ${unit}`,
  plainNumber: 'Eine Zahl',
  enter: 'Eingeben',

  backUndoes: answer => `Zurück: nimmt „${answer}“ zurück`,
  againAsk: 'Damit nehmen Sie alle Antworten zurück. Der Service Desk kann sie weiterhin sehen.',
  againYes: 'Ja, von vorn',
  said: { back: 'Zurück', again: 'Von vorn', person: 'Bitte ein Mensch', stop: 'Aufhören' },
  change: 'Ändern',
  changeUndoes: count =>
    count === 1 ? 'Das nimmt eine Antwort zurück:' : `Das nimmt ${count} Antworten zurück:`,
  changeYes: 'Zurücknehmen und neu fragen',
  takenBack: 'zurückgenommen',
  yourAnswers: 'Ihre Antworten',
  answersSoFar: count => `Ihre Antworten (${count})`,
  noAnswers: 'Noch nichts beantwortet.',
  close: 'Schließen',
  showAll: characters => `Alle ${characters} Zeichen zeigen`,
  working: 'Einen Moment…',
  refresh: 'Noch einmal nachsehen',

  earlier: count => (count === 1 ? 'Ein früherer Fall' : `${count} frühere Fälle`),
  ended: {
    fixed: 'gelöst',
    escalated: 'beim Service Desk',
    'known-outage': 'eine bekannte Störung',
    'not-storage': 'weitergegeben',
    left: 'zurückgestellt',
    done: 'erledigt',
  },
  open: 'offen',
  newMatter: 'Ist noch etwas anderes? Schreiben Sie es unten.',

  ticket: 'Ticket',
  print: 'Drucken',
  copy: 'Kopieren',
  copied: 'Kopiert',
  keep: 'Auf einem anderen Gerät weitermachen',
  keepTitle: 'Auf einem anderen Gerät weitermachen',
  keepHow:
    'Scannen Sie das mit dem anderen Gerät, oder öffnen Sie dort den Link. Wer ihn hat, kann dieses Gespräch lesen und weiterführen; geben Sie ihn sonst niemandem.',
  keepUntil: when => html`Gültig bis ${when}.`,
  keepHere:
    'Reseat läuft gerade nur für diesen Rechner, darum öffnet der Link sonst nirgends etwas. Wer es betreibt, kann das ändern.',
  keepMake: 'Link erstellen',
  keepWhy:
    'Ein Link und ein Quadrat zum Scannen öffnen dieses Gespräch sieben Tage lang auf Ihrem Telefon oder einem anderen PC.',
  keepEnd: 'Link ungültig machen',
  keepNothing: 'Es gibt noch nichts, womit man weitermachen könnte. Sagen Sie erst, was los ist.',
  forget: 'In diesem Browser vergessen',
  forgetHow:
    'An einem Rechner, den auch andere benutzen: Dieser Browser vergisst das Gespräch. Der Service Desk behält, was er hat; erstellen Sie vorher einen Link, wenn Sie wiederkommen möchten.',
  scan: 'Zum Weitermachen auf einem anderen Gerät scannen',
  copyLink: 'Link kopieren',
  toTalk: 'Zurück zum Gespräch',

  goTitle: 'Dieses Gespräch hier weiterführen?',
  goHow: 'Es wurde auf einem anderen Gerät begonnen. Öffnen Sie es hier nur, wenn es Ihres ist.',
  goReplaces:
    'Dieser Browser hat ein eigenes Gespräch. Es wird zur Seite gelegt; erstellen Sie vorher einen Link dazu, wenn Sie es noch brauchen.',
  goYes: 'Hier öffnen',
  goGone: 'Dieser Link öffnet nichts',
  goGoneHow:
    'Er ist zu alt, wurde ungültig gemacht, oder es fehlt ein Stück. Erstellen Sie auf dem Gerät, auf dem das Gespräch begann, einen neuen; oder fangen Sie hier neu an.',
  beginHere: 'Hier anfangen',

  away: 'Reseat ist gerade nicht erreichbar. Schreiben Sie ruhig weiter: Es bleibt in diesem Browser und wird gesendet, sobald es wieder geht.',
  waiting: 'wird noch gesendet',
  sending: 'wird gesendet',
  notSent: 'Nicht gesendet',
  keepOpen: 'Lassen Sie diese Seite offen, bis das Bild gesendet ist.',
  more: 'Neues in der Speicherhilfe',

  errors: {
    gone: ['Diese Seite gibt es nicht', 'Die Adresse ist vielleicht vertippt oder alt.'],
    stale: [
      'Diese Seite war zu lange offen',
      'Was Sie geschrieben haben, ist nicht verloren: Es steht unten. Bitte senden Sie es noch einmal.',
    ],
    cookies: [
      'Dieser Browser behält keine Cookies von hier',
      'Eines ist nötig, um Ihr Gespräch wiederzufinden; es sagt nichts über Sie. Bitte erlauben Sie es für diese Seite.',
    ],
    tooFast: [
      'Das war sehr schnell',
      'Ich lese alles, aber so schnell nicht. Bitte warten Sie einen Moment und senden Sie es noch einmal.',
    ],
    tooMany: [
      'Von Ihrer Adresse kommt gerade sehr viel',
      'Bitte warten Sie eine Minute und versuchen Sie es wieder. Ist es dringend, rufen Sie den Service Desk an.',
    ],
    tooLarge: ['Das ist zu groß', 'Bilder dürfen bis 10 MB haben, Texte bis 40.000 Zeichen.'],
    full: [
      'Ich kann gerade nichts behalten',
      'Meine Festplatte ist voll, darum wurde nicht angenommen, was Sie gesendet haben. Bitte rufen Sie den Service Desk an, oder senden Sie es später noch einmal; es steht noch unten.',
    ],
    broken: [
      'Hier ist etwas schiefgegangen',
      'Es liegt nicht an Ihnen, und was Sie gesendet haben, wurde nicht angenommen. Bitte senden Sie es noch einmal. Bleibt es so, rufen Sie den Service Desk an.',
    ],
    notForms: [
      'Das habe ich nicht verstanden',
      'Bitte gehen Sie zurück zum Gespräch und versuchen Sie es dort.',
    ],
  },
  noPicture: 'Es wurde kein Bild ausgewählt.',
  callDesk: (name, phone) => html`So erreichen Sie ${name}: ${phone}`,
  whatYouWrote: 'Was Sie geschrieben haben',
  sendAgain: 'Noch einmal senden',
};
