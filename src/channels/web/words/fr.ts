import { shared } from '../../words.ts';
import { html } from '../html.ts';
import type { Words } from './words.ts';

export const fr: Words = {
  ...shared.fr,
  name: 'Aide stockage',
  title: organisation => `Aide stockage, ${organisation}`,
  skipToQuestion: 'Vers la question',
  emergency: 'Urgence',

  firstTitle: "Qu'est-ce qui ne va pas ?",
  firstFor:
    "Pour les PC qui ne démarrent pas, disques, clés USB, lecteurs réseau, fichiers disparus. Quelques questions courtes, vos données d'abord ; quand il faut des mains, l'assistance prend le relais. Les questions sont en anglais ; répondez en français si vous voulez.",
  firstNot: 'Pas pour les mots de passe, imprimantes, téléphones ou autre chose :',
  firstElsewhere: 'qui aide pour cela',
  firstDanger: 'Odeur de brûlé, fumée, liquide, batterie gonflée ? Éloignez-vous et appelez le',
  firstBox: 'Comme à un collègue ; les messages mot pour mot',
  firstKeep: 'Sans compte. Ce navigateur se souvient où vous en étiez.',

  you: 'Vous',
  bot: 'Reseat',
  sendWords: 'Envoyer',
  boxOpening: 'Quel est le problème ?',
  boxChoice: 'Ou avec vos mots',
  boxText: 'Votre réponse',
  boxEnded: 'Écrivez ici à tout moment',
  picture: 'Ajouter une image ou un fichier',
  file: name => `Fichier : ${name}`,
  sendPicture: "Envoyer l'image",
  pictureOf: name => `Votre image : ${name}`,
  takePicture: 'Prendre ou choisir une image',
  pictureKinds: "PNG, JPEG ou WebP, 10 Mo au plus. Le lieu et l'heure de la prise de vue sont effacés.",
  number: unit => `Un nombre en ${unit}`,
  plainNumber: 'Un nombre',
  enter: 'Valider',

  backUndoes: answer => `Retour : annule « ${answer} »`,
  againAsk: "Ceci annule toutes vos réponses. L'équipe d'assistance peut encore les voir.",
  againYes: 'Oui, recommencer',
  said: { back: 'Retour', again: 'Recommencer', person: "Une personne, s'il vous plaît", stop: 'Arrêter' },
  change: 'Modifier',
  changeUndoes: count => (count === 1 ? 'Ceci annule une réponse :' : `Ceci annule ${count} réponses :`),
  changeYes: 'Annuler et redemander',
  takenBack: 'annulé',
  yourAnswers: 'Vos réponses',
  answersSoFar: count => `Vos réponses (${count})`,
  noAnswers: "Aucune réponse pour l'instant.",
  close: 'Fermer',
  showAll: characters => `Afficher les ${characters} caractères`,
  working: 'Un instant…',
  refresh: 'Regarder à nouveau',

  earlier: count => (count === 1 ? 'Une affaire précédente' : `${count} affaires précédentes`),
  ended: {
    fixed: 'résolu',
    escalated: "chez l'équipe d'assistance",
    'known-outage': 'une panne connue',
    'not-storage': 'transmis',
    left: 'mis de côté',
    done: 'terminé',
  },
  open: 'ouvert',
  newMatter: 'Autre chose ne va pas ? Écrivez-le ci-dessous.',

  ticket: 'Ticket',
  print: 'Imprimer',
  copy: 'Copier',
  copied: 'Copié',
  keep: 'Continuer sur un autre appareil',
  keepTitle: 'Continuer sur un autre appareil',
  keepHow:
    "Scannez ceci avec l'autre appareil, ou ouvrez-y le lien. Celui qui l'a peut lire et poursuivre cette conversation : ne le donnez à personne d'autre.",
  keepUntil: when => html`Valable jusqu'au ${when}.`,
  keepHere:
    "Reseat ne fonctionne pour l'instant que sur cette machine : le lien ne s'ouvre nulle part ailleurs. La personne qui l'exploite peut le changer.",
  keepMake: 'Créer le lien',
  keepWhy:
    'Un lien et un carré à scanner ouvrent cette conversation sur votre téléphone ou un autre PC, pendant sept jours.',
  keepEnd: 'Invalider le lien',
  keepNothing: "Il n'y a encore rien à poursuivre. Dites d'abord ce qui ne va pas.",
  forget: "L'oublier dans ce navigateur",
  forgetHow:
    "Sur un ordinateur partagé : ce navigateur oublie la conversation. L'équipe d'assistance garde ce qu'elle a ; créez d'abord un lien si vous voulez revenir.",
  scan: 'À scanner pour continuer sur un autre appareil',
  copyLink: 'Copier le lien',
  toTalk: 'Retour à la conversation',

  goTitle: 'Continuer cette conversation ici ?',
  goHow: "Elle a été commencée sur un autre appareil. Ne l'ouvrez ici que si c'est la vôtre.",
  goReplaces:
    "Ce navigateur a sa propre conversation. Elle sera mise de côté ; créez d'abord un lien si vous en avez encore besoin.",
  goYes: "L'ouvrir ici",
  goGone: "Ce lien n'ouvre rien",
  goGoneHow:
    "Il est trop ancien, a été invalidé, ou il en manque un morceau. Sur l'appareil où la conversation a commencé, créez-en un nouveau ; ou commencez ici.",
  beginHere: 'Commencer ici',

  away: 'Reseat est injoignable pour le moment. Continuez à écrire : tout est gardé dans ce navigateur et sera envoyé dès son retour.',
  waiting: "en attente d'envoi",
  sending: "en cours d'envoi",
  notSent: 'Non envoyé',
  keepOpen: "Gardez cette page ouverte jusqu'à l'envoi de l'image.",
  more: "Du nouveau dans l'aide stockage",

  errors: {
    gone: ["Cette page n'existe pas", "L'adresse est peut-être mal tapée ou ancienne."],
    stale: [
      'Cette page était ouverte depuis trop longtemps',
      "Rien de ce que vous avez écrit n'est perdu : c'est ci-dessous. Renvoyez-le, je vous prie.",
    ],
    cookies: [
      "Ce navigateur ne garde pas de cookie d'ici",
      "Il en faut un pour retrouver votre conversation ; il ne dit rien de vous. Autorisez-le pour cette page, s'il vous plaît.",
    ],
    tooFast: [
      "C'était très rapide",
      'Je lis tout, mais pas si vite. Attendez un instant et renvoyez-le, je vous prie.',
    ],
    tooMany: [
      'Beaucoup de messages arrivent de votre adresse',
      "Attendez une minute et réessayez. Si c'est urgent, appelez l'équipe d'assistance.",
    ],
    tooLarge: ["C'est trop grand", "Les images jusqu'à 10 Mo, les textes jusqu'à 40 000 caractères."],
    full: [
      'Je ne peux rien garder pour le moment',
      "Mon disque est plein : votre envoi n'a pas été pris. Appelez l'équipe d'assistance, ou renvoyez-le plus tard ; il est encore ci-dessous.",
    ],
    broken: [
      "Quelque chose s'est mal passé ici",
      "Ce n'est pas de votre faute, et votre envoi n'a pas été pris. Renvoyez-le, je vous prie. Si cela continue, appelez l'équipe d'assistance.",
    ],
    notForms: ["Je n'ai pas compris", 'Revenez à la conversation et essayez là, je vous prie.'],
  },
  noPicture: "Aucune image n'a été choisie.",
  callDesk: (name, phone) => html`Joindre ${name} : ${phone}`,
  whatYouWrote: 'Ce que vous avez écrit',
  sendAgain: 'Renvoyer',
};
