import { shared } from '../../words.ts';
/** The page's own words. What the flows and the desk say is not here. */
import { type Html, html } from '../html.ts';

export const en = {
  ...shared.en,
  name: 'Storage help',
  title: (organisation: string) => `Storage help, ${organisation}`,
  skipToQuestion: 'To the question',
  emergency: 'Emergency',

  firstTitle: 'What is wrong?',
  firstFor:
    'For PCs that will not start, drives, USB sticks, network shares, files that are gone. A few short questions, your data first; where hands are needed, the desk takes over with everything you said.',
  firstNot: 'Not for passwords, printers, phones or anything else:',
  firstElsewhere: 'who helps with those',
  firstDanger: 'Burning smell, smoke, liquid in it, a swollen battery? Get away from it and call',
  firstBox: 'As you would tell a colleague; messages word for word',
  firstKeep: 'No sign-in. This browser remembers where you were.',

  you: 'You',
  bot: 'Reseat',
  sendWords: 'Send',
  boxOpening: 'What is the problem?',
  boxChoice: 'Or in your own words',
  boxText: 'Your answer',
  boxEnded: 'Write here any time',
  picture: 'Add a picture or a file',
  file: (name: string) => `File: ${name}`,
  sendPicture: 'Send the picture',
  pictureOf: (name: string) => `Your picture: ${name}`,
  takePicture: 'Take or choose a picture',
  pictureKinds: 'PNG, JPEG or WebP, up to 10 MB. Where and when it was taken is removed.',
  number: (unit: string) => `A number in ${unit}`,
  plainNumber: 'A number',
  enter: 'Enter',

  backUndoes: (answer: string) => `Back: takes back “${answer}”`,
  againAsk: 'This takes back everything you answered. The desk can still see it.',
  againYes: 'Yes, start again',
  said: { back: 'Back', again: 'Start again', person: 'A person, please', stop: 'Stop' },
  change: 'Change this',
  changeUndoes: (count: number) =>
    count === 1 ? 'This takes back one answer:' : `This takes back ${count} answers:`,
  changeYes: 'Take it back and ask again',
  takenBack: 'taken back',
  yourAnswers: 'Your answers',
  answersSoFar: (count: number) => `Your answers (${count})`,
  noAnswers: 'Nothing answered yet.',
  close: 'Close',
  showAll: (characters: string) => `Show all ${characters} characters`,
  working: 'One moment…',
  refresh: 'Look again',

  earlier: (count: number) => (count === 1 ? 'An earlier matter' : `${count} earlier matters`),
  ended: {
    fixed: 'solved',
    escalated: 'with the desk',
    'known-outage': 'a known outage',
    'not-storage': 'passed on',
    left: 'put aside',
    done: 'done',
  },
  open: 'open',
  newMatter: 'Something else is wrong? Write it below.',

  ticket: 'Ticket',
  print: 'Print',
  copy: 'Copy',
  copied: 'Copied',
  keep: 'Go on from another device',
  keepTitle: 'Go on from another device',
  keepHow:
    'Scan this with the other device, or open the link there. Whoever has it can read and go on with this conversation, so give it to nobody else.',
  keepUntil: (when: Html) => html`It works until ${when}.`,
  keepHere:
    'Reseat runs for this machine only at the moment, so the link opens nowhere else. Whoever runs it can change that.',
  keepMake: 'Make the link',
  keepWhy: 'A link and a square to scan open this conversation on your phone or another PC, for seven days.',
  keepEnd: 'Make the link invalid',
  keepNothing: 'There is nothing to go on with yet. Tell what is wrong first.',
  forget: 'Forget it in this browser',
  forgetHow:
    'At a computer that others use too: this browser forgets the conversation. The desk keeps what it has; make a link first if you want to come back.',
  scan: 'Scan to go on from another device',
  copyLink: 'Copy the link',
  toTalk: 'Back to the conversation',

  goTitle: 'Go on with this conversation here?',
  goHow: 'It was begun on another device. Open it here only if it is yours.',
  goReplaces:
    'This browser has a conversation of its own. It will be put aside; make a link to it first if you still need it.',
  goYes: 'Open it here',
  goGone: 'This link does not open anything',
  goGoneHow:
    'It is too old, was made invalid, or lacks a piece. On the device where the conversation was begun, make a new one; or begin anew here.',
  beginHere: 'Begin here',

  away: 'Reseat cannot be reached right now. Go on writing: it is kept in this browser and sent once it is back.',
  waiting: 'waiting to be sent',
  sending: 'sending',
  notSent: 'Not sent',
  keepOpen: 'Keep this page open until the picture is sent.',
  more: 'New in Storage help',

  errors: {
    gone: ['There is no such page', 'The address may be mistyped or old.'],
    stale: [
      'This page had been open too long',
      'Nothing of what you wrote is lost: it is below. Send it again, please.',
    ],
    cookies: [
      'This browser keeps no cookies from here',
      'One is needed to find your conversation again; it says nothing about you. Please allow it for this page.',
    ],
    tooFast: [
      'That was very fast',
      'I read everything, but not that quickly. Wait a moment and send it again, please.',
    ],
    tooMany: [
      'Very much is arriving from your address just now',
      'Wait a minute and try again, please. If it is urgent, call the desk.',
    ],
    tooLarge: ['That is too large', 'Pictures may have up to 10 MB, texts up to 40,000 characters.'],
    full: [
      'I cannot keep anything at the moment',
      'My disk is full, so what you sent was not taken. Please call the desk, or send it again later; it is still below.',
    ],
    broken: [
      'Something went wrong here',
      'It is not your doing, and what you sent was not taken. Please send it again. If it stays so, call the desk.',
    ],
    notForms: ['I did not understand that', 'Go back to the conversation and try it there, please.'],
  } satisfies Record<string, [string, string]>,
  noPicture: 'No picture was chosen.',
  callDesk: (name: string, phone: Html) => html`Reach ${name}: ${phone}`,
  whatYouWrote: 'What you wrote',
  sendAgain: 'Send again',
};
