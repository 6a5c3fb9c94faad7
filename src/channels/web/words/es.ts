import { shared } from '../../words.ts';
import { html } from '../html.ts';
import type { Words } from './words.ts';

export const es: Words = {
  ...shared.es,
  name: 'Ayuda',
  title: organisation => `Ayuda de datos, ${organisation}`,
  skipToQuestion: 'A la pregunta',
  emergency: 'Emergencia',

  firstTitle: '¿Qué pasa?',
  firstFor:
    'Para PC que no arrancan, discos, memorias USB, unidades de red, archivos desaparecidos. Pocas preguntas cortas, primero sus datos; donde hagan falta manos, continúa el equipo de asistencia. Las preguntas están en inglés; puede responder en español.',
  firstNot: 'No para contraseñas, impresoras, teléfonos u otra cosa:',
  firstElsewhere: 'quién ayuda con eso',
  firstDanger: '¿Olor a quemado, humo, líquido, una batería hinchada? Aléjese y llame al',
  firstBox: 'Como a un compañero; los mensajes palabra por palabra',
  firstKeep: 'Sin cuenta. Este navegador recuerda dónde estaba.',

  you: 'Usted',
  bot: 'Reseat',
  sendWords: 'Enviar',
  boxOpening: '¿Cuál es el problema?',
  boxChoice: 'O con sus palabras',
  boxText: 'Su respuesta',
  boxEnded: 'Escriba aquí cuando quiera',
  picture: 'Añadir una imagen o un archivo',
  file: name => `Archivo: ${name}`,
  sendPicture: 'Enviar la imagen',
  pictureOf: name => `Su imagen: ${name}`,
  takePicture: 'Tomar o elegir una imagen',
  pictureKinds: 'PNG, JPEG o WebP, hasta 10 MB. El lugar y la hora de la toma se borran.',
  number: unit => `Un número en ${unit}`,
  plainNumber: 'Un número',
  enter: 'Aceptar',

  backUndoes: answer => `Atrás: retira «${answer}»`,
  againAsk: 'Esto retira todas sus respuestas. El equipo de asistencia aún puede verlas.',
  againYes: 'Sí, reiniciar',
  said: { back: 'Atrás', again: 'Reiniciar', person: 'Una persona, por favor', stop: 'Parar' },
  change: 'Cambiar',
  changeUndoes: count => (count === 1 ? 'Esto retira una respuesta:' : `Esto retira ${count} respuestas:`),
  changeYes: 'Retirar y preguntar de nuevo',
  takenBack: 'retirado',
  yourAnswers: 'Sus respuestas',
  answersSoFar: count => `Sus respuestas (${count})`,
  noAnswers: 'Todavía no hay respuestas.',
  close: 'Cerrar',
  showAll: characters => `Mostrar los ${characters} caracteres`,
  working: 'Un momento…',
  refresh: 'Mirar otra vez',

  earlier: count => (count === 1 ? 'Un caso anterior' : `${count} casos anteriores`),
  ended: {
    fixed: 'resuelto',
    escalated: 'con el equipo de asistencia',
    'known-outage': 'una avería conocida',
    'not-storage': 'derivado',
    left: 'aplazado',
    done: 'hecho',
  },
  open: 'abierto',
  newMatter: '¿Pasa algo más? Escríbalo abajo.',

  ticket: 'Ticket',
  print: 'Imprimir',
  copy: 'Copiar',
  copied: 'Copiado',
  keep: 'Seguir en otro dispositivo',
  keepTitle: 'Seguir en otro dispositivo',
  keepHow:
    'Escanee esto con el otro dispositivo, o abra allí el enlace. Quien lo tenga puede leer y continuar esta conversación; no se lo dé a nadie más.',
  keepUntil: when => html`Válido hasta el ${when}.`,
  keepHere:
    'Reseat funciona ahora solo para este equipo, así que el enlace no se abre en ningún otro sitio. Quien lo administra puede cambiarlo.',
  keepMake: 'Crear el enlace',
  keepWhy:
    'Un enlace y un cuadrado para escanear abren esta conversación en su teléfono o en otro PC durante siete días.',
  keepEnd: 'Anular el enlace',
  keepNothing: 'Todavía no hay nada que continuar. Diga primero qué pasa.',
  forget: 'Olvidarla en este navegador',
  forgetHow:
    'En un equipo que otros también usan: este navegador olvida la conversación. El equipo de asistencia conserva lo que tiene; cree antes un enlace si quiere volver.',
  scan: 'Escanear para seguir en otro dispositivo',
  copyLink: 'Copiar el enlace',
  toTalk: 'Volver a la conversación',

  goTitle: '¿Continuar esta conversación aquí?',
  goHow: 'Se empezó en otro dispositivo. Ábrala aquí solo si es la suya.',
  goReplaces:
    'Este navegador tiene su propia conversación. Quedará aparte; cree antes un enlace si todavía la necesita.',
  goYes: 'Abrirla aquí',
  goGone: 'Este enlace no abre nada',
  goGoneHow:
    'Es demasiado antiguo, se anuló o le falta un trozo. En el dispositivo donde empezó la conversación, cree uno nuevo; o empiece aquí.',
  beginHere: 'Empezar aquí',

  away: 'No se puede contactar con Reseat ahora mismo. Siga escribiendo: se guarda en este navegador y se enviará cuando vuelva.',
  waiting: 'pendiente de envío',
  sending: 'enviando',
  notSent: 'No enviado',
  keepOpen: 'Deje esta página abierta hasta que se envíe la imagen.',
  more: 'Novedad en la ayuda de datos',

  errors: {
    gone: ['Esta página no existe', 'La dirección puede estar mal escrita o ser antigua.'],
    stale: [
      'Esta página llevaba demasiado tiempo abierta',
      'No se ha perdido nada de lo que escribió: está abajo. Envíelo otra vez, por favor.',
    ],
    cookies: [
      'Este navegador no guarda cookies de aquí',
      'Hace falta una para encontrar su conversación; no dice nada sobre usted. Permítala para esta página, por favor.',
    ],
    tooFast: [
      'Eso fue muy rápido',
      'Lo leo todo, pero no tan deprisa. Espere un momento y envíelo otra vez, por favor.',
    ],
    tooMany: [
      'Llega mucho desde su dirección en este momento',
      'Espere un minuto e inténtelo otra vez. Si es urgente, llame al equipo de asistencia.',
    ],
    tooLarge: ['Es demasiado grande', 'Las imágenes hasta 10 MB, los textos hasta 40.000 caracteres.'],
    full: [
      'Ahora mismo no puedo guardar nada',
      'Mi disco está lleno, así que no se aceptó lo que envió. Llame al equipo de asistencia o envíelo más tarde; sigue abajo.',
    ],
    broken: [
      'Algo ha fallado aquí',
      'No es culpa suya, y no se aceptó lo que envió. Envíelo otra vez, por favor. Si sigue así, llame al equipo de asistencia.',
    ],
    notForms: ['No lo he entendido', 'Vuelva a la conversación e inténtelo allí, por favor.'],
  },
  noPicture: 'No se eligió ninguna imagen.',
  callDesk: (name, phone) => html`Contacto con ${name}: ${phone}`,
  whatYouWrote: 'Lo que escribió',
  sendAgain: 'Enviar otra vez',
};
