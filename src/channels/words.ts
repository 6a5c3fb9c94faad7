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
  /** Why what was attached is not taken. */
  refused: {
    empty: 'That file is empty. Please take or choose another.',
    'too-large':
      'That has more than 10 MB. Of a picture a screenshot, or a smaller size from the camera, will do.',
    heic: 'That is a HEIC picture, which I cannot show. On an iPhone: Settings, Camera, Formats, “Most Compatible”, then take it again; or send a screenshot of it.',
    other:
      "I can take pictures (PNG, JPEG or WebP), and a drive's reading as a text file; that file is neither, whatever it is called.",
    'too-long': 'That text has more than 1 MB. Please send the part that matters.',
    broken: 'That picture is damaged or did not arrive whole. Please send it again, or take another.',
    'too-many-pixels': 'That picture is wider or higher than 20,000 pixels. A smaller one will do.',
  },
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
  refused: {
    empty: 'Diese Datei ist leer. Bitte nehmen Sie eine andere.',
    'too-large':
      'Das hat mehr als 10 MB. Von einem Bild ein Bildschirmfoto oder eine kleinere Größe der Kamera reicht.',
    heic: 'Das ist ein HEIC-Bild, das ich nicht zeigen kann. Auf dem iPhone: Einstellungen, Kamera, Formate, „Maximale Kompatibilität“, dann noch einmal aufnehmen; oder senden Sie ein Bildschirmfoto davon.',
    other:
      'Ich nehme Bilder (PNG, JPEG oder WebP) und die Messwerte eines Laufwerks als Textdatei; diese Datei ist keines von beiden, wie immer sie heißt.',
    'too-long': 'Dieser Text hat mehr als 1 MB. Bitte nur den Teil, auf den es ankommt.',
    broken:
      'Dieses Bild ist beschädigt oder kam nicht ganz an. Bitte senden Sie es noch einmal oder ein anderes.',
    'too-many-pixels': 'Dieses Bild ist breiter oder höher als 20.000 Pixel. Ein kleineres reicht.',
  },
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
  refused: {
    empty: 'Ce fichier est vide. Prenez-en un autre, je vous prie.',
    'too-large':
      "Cela dépasse 10 Mo. Pour une image, une capture d'écran ou une taille plus petite de l'appareil photo suffit.",
    heic: "C'est une image HEIC, que je ne peux pas afficher. Sur un iPhone : Réglages, Appareil photo, Formats, « Le plus compatible », puis reprenez-la ; ou envoyez une capture d'écran.",
    other:
      "Je prends les images (PNG, JPEG ou WebP) et les relevés d'un disque en fichier texte ; ce fichier n'est ni l'un ni l'autre, quel que soit son nom.",
    'too-long': "Ce texte dépasse 1 Mo. Envoyez seulement la partie qui compte, s'il vous plaît.",
    broken: "Cette image est abîmée ou n'est pas arrivée entière. Renvoyez-la, ou prenez-en une autre.",
    'too-many-pixels': 'Cette image dépasse 20 000 pixels de large ou de haut. Une plus petite suffit.',
  },
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
  refused: {
    empty: 'Ese archivo está vacío. Elija otro, por favor.',
    'too-large':
      'Eso tiene más de 10 MB. De una imagen basta una captura de pantalla o un tamaño menor de la cámara.',
    heic: 'Es una imagen HEIC, que no puedo mostrar. En un iPhone: Ajustes, Cámara, Formatos, «Más compatible», y tómela de nuevo; o envíe una captura de pantalla.',
    other:
      'Acepto imágenes (PNG, JPEG o WebP) y los datos de un disco como archivo de texto; ese archivo no es ninguna de las dos cosas, se llame como se llame.',
    'too-long': 'Ese texto tiene más de 1 MB. Envíe solo la parte que importa, por favor.',
    broken: 'Esa imagen está dañada o no llegó entera. Envíela otra vez, o tome otra.',
    'too-many-pixels': 'Esa imagen tiene más de 20.000 píxeles de ancho o de alto. Basta una menor.',
  },
};

export const shared = { en, de, fr, es };
export type Language = keyof typeof shared;

/** `locale`: a language tag such as `de-AT`, or as a profile has it. English where we have none for it; a strange one is no error. */
export const languageOf = (locale: string | null | undefined): Language => {
  const language = (locale ?? '').toLowerCase().split(/[-_]/)[0]!;
  return Object.hasOwn(shared, language) ? (language as Language) : 'en';
};
