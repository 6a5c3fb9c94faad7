/** The open question on a card: how far along, the question, its answers, and the words that always work. Pure. */
import type { Always } from '#engine/entries.ts';
import type { Ask, Choice, Question } from '#engine/messages.ts';
import type { Look } from './look.ts';
import { type Element, rich } from './rich.ts';

/** So many buttons at most stand together in Teams. */
export const MOST_BUTTONS = 6;
/** Characters that a button of a phone's width shows; longer answers wrap in a list. */
const BUTTON_FITS = 34;

/** `open`: it can be answered, so what is meant can be looked up. */
export function questionElements(question: Question, look: Look, open: boolean): Element[] {
  const { words } = look;
  const text = question.kind === 'try' ? question.works : question.text;
  const far = question.left === null ? [] : [small(words.far(question.left.shortest, question.left.longest))];
  return [
    ...far,
    ...(question.kind === 'try' ? [tryElement(question.text, question.minutes, look)] : []),
    ...rich(text, { weight: 'Bolder', size: 'Medium' }),
    ...(question.help === null || !open
      ? []
      : [
          {
            type: 'Container',
            spacing: 'Small',
            selectAction: { type: 'Action.ToggleVisibility', title: words.help, targetElements: ['help'] },
            items: [{ type: 'TextBlock', text: words.help, wrap: true, size: 'Small', color: 'Accent' }],
          },
          { type: 'Container', id: 'help', isVisible: false, items: rich(question.help) },
        ]),
  ];
}

export function tryElement(text: string, minutes: number, { words }: Look): Element {
  return {
    type: 'Container',
    style: 'emphasis',
    items: [heading(`${words.tryThis} · ${words.minutes(minutes)}`), ...rich(text)],
  };
}

export function answerElements(question: Question, look: Look): Element[] {
  const { answers } = question;
  const choices =
    answers.length === 0
      ? []
      : answers.length <= MOST_BUTTONS && answers.every(({ label }) => label.length <= BUTTON_FITS)
        ? answers.map(answer => button(answer, question, look))
        : choiceSet(answers, question, look);
  return [...choices, ...(question.kind === 'ask' ? entryElements(question, look) : [])];
}

/** One below the other: side by side a phone would cut them off. */
function button({ id, label }: Choice, { number }: Question, look: Look): Element {
  return {
    type: 'ActionSet',
    spacing: 'Small',
    actions: [execute('say:answer', label, { a: id }, number, look)],
  };
}

function choiceSet(answers: Choice[], { number }: Question, look: Look): Element[] {
  const { words } = look;
  return [
    {
      type: 'Input.ChoiceSet',
      id: 'answer',
      style: answers.length > 12 ? 'compact' : 'expanded',
      wrap: true,
      isRequired: true,
      label: words.choose,
      errorMessage: words.choose,
      choices: answers.map(({ id, label }) => ({ title: label, value: id })),
    },
    { type: 'ActionSet', actions: [execute('say:answer', words.send, {}, number, look)] },
  ];
}

/** A number has its keypad. Words are typed where everything is typed, but where others read along they go into the card. */
function entryElements(ask: Ask, look: Look): Element[] {
  const { words } = look;
  const send: Element = {
    type: 'ActionSet',
    actions: [execute('say:text', words.send, {}, ask.number, look)],
  };
  const skip: Element[] = ask.optional
    ? [
        {
          type: 'ActionSet',
          spacing: 'Small',
          actions: [execute('say:skip', words.skip, {}, ask.number, look, false)],
        },
      ]
    : [];
  if (ask.form === 'number')
    return [
      {
        type: 'Input.Number',
        id: 'answer',
        label: words.number(ask.unit),
        isRequired: true,
        errorMessage: words.number(ask.unit),
        ...(ask.minimum === null ? {} : { min: ask.minimum }),
        ...(ask.maximum === null ? {} : { max: ask.maximum }),
      },
      send,
      ...skip,
    ];
  if (ask.form === 'photo') return [small(words.photo), ...skip];
  if (ask.form === 'text' && look.owner !== null)
    return [
      {
        type: 'Input.Text',
        id: 'answer',
        label: words.answer,
        isMultiline: true,
        maxLength: 4000,
        isRequired: true,
        errorMessage: words.answer,
      },
      send,
      ...skip,
    ];
  return skip;
}

/** Back and a person are at hand, the rest behind the dots: more would be cut off on a phone. */
export function alwaysActions(question: Question, look: Look): Element[] {
  const { words } = look;
  const word = (what: Always): Element => ({
    ...execute('say:always', words[what], { w: what }, question.number, look, false),
    ...(what === 'again' || what === 'stop' ? { mode: 'secondary' } : {}),
  });
  const inOrder = (['back', 'person', 'again', 'stop'] as const).filter(what =>
    question.always.includes(what),
  );
  return [...inOrder.map(word), ...(look.owner === null ? [] : [ownChat(look)])];
}

export const ownChat = ({ words, bot }: Look): Element => ({
  type: 'Action.OpenUrl',
  title: words.ownChat,
  url: `https://teams.microsoft.com/l/chat/0/0?users=28:${encodeURIComponent(bot)}`,
  mode: 'secondary',
});

/** Answered in place; a client that does not know how sends the same as a form. `inputs`: what was entered goes with it. */
function execute(
  verb: string,
  title: string,
  carried: Record<string, string>,
  question: number,
  { conversation, owner }: Look,
  inputs = true,
): Element {
  const data = {
    v: verb,
    c: conversation,
    q: question,
    ...(owner === null ? {} : { u: owner }),
    ...carried,
  };
  const common = { title, data, ...(inputs ? {} : { associatedInputs: 'none' }) };
  return { type: 'Action.Execute', verb, ...common, fallback: { type: 'Action.Submit', ...common } };
}

export const small = (text: string): Element => ({
  type: 'TextBlock',
  text,
  wrap: true,
  size: 'Small',
  isSubtle: true,
  spacing: 'Small',
});

export const heading = (text: string): Element => ({
  type: 'TextBlock',
  text,
  wrap: true,
  size: 'Medium',
  weight: 'Bolder',
  style: 'heading',
});
