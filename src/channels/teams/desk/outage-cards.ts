/** Outages as cards: declared by a form, shown by a card that also ends it. Pure. */
import type { Catalogue, Site } from '#engine/catalogue.ts';
import type { Outage } from '#store/store.ts';
import { heading, small } from '../question.ts';
import type { Element } from '../rich.ts';
import {
  alarm,
  buttons,
  cardWith,
  clock,
  cut,
  filledIn,
  inputId,
  line,
  lines,
  opens,
  run,
  sends,
} from './draw.ts';
import { choiceInput, wordsInput } from './forms.ts';

export interface Known {
  catalogue: Catalogue;
  site: Site;
}

/** For an outage that every site has. */
export const EVERYWHERE = '-';
/** Open ones that the form lists. */
const MOST_LISTED = 10;

export function outageForm(
  { catalogue, site }: Known,
  open: Outage[],
  key: string,
  before: { data: Record<string, unknown>; wrong: string } | null,
): Element {
  const value = (id: string, usual?: string) => {
    const given = filledIn(before?.data ?? {}, id) || usual;
    return given === undefined ? {} : { value: given };
  };
  const needed = { isRequired: true, errorMessage: 'This is needed.' };
  const choices = (all: Record<string, string>) =>
    Object.entries(all).map(([id, title]) => ({ title, value: id }));
  const symptoms = Object.fromEntries(
    Object.entries(catalogue.symptoms).map(([id, { title }]) => [id, title]),
  );
  const sites = Object.fromEntries(Object.entries(site.sites).map(([id, { name }]) => [id, name]));
  const input = (id: string, label: string) => ({ id: inputId(id), label, ...needed });
  return cardWith(
    [
      ...(before === null ? [] : [alarm(before.wrong)]),
      choiceInput({ ...input('symptom', 'What people report'), ...value('symptom') }, choices(symptoms)),
      choiceInput({ ...input('site', 'Where'), ...value('site', EVERYWHERE) }, [
        { title: 'Every site', value: EVERYWHERE },
        ...choices(sites),
      ]),
      wordsInput({ ...input('text', 'What people are told'), ...value('text') }),
      small(
        'In a sentence or two: what is known, what to do meanwhile. Everybody who reports it is told this.',
      ),
      buttons([sends('Declare it', { v: 'desk:outage-declare', f: key })]),
      ...(open.length === 0
        ? []
        : [heading('Open now'), ...open.slice(0, MOST_LISTED).flatMap(openElements)]),
    ],
    [],
    'An outage',
  );
}

const openElements = ({ id, text }: Outage): Element[] => [
  ...lines(cut(text, 300), [run(`${id} `, { weight: 'Bolder' })]),
  buttons([sends(`${id} is over`, { v: 'desk:outage-over', o: id }, false)]),
];

export function outageCard(outage: Outage, { catalogue, site }: Known, told: number): Element {
  const { id, symptom, text, declaredBy, declaredAt, endedAt } = outage;
  const about = catalogue.symptoms[symptom]?.title ?? symptom;
  const where = outage.site === null ? 'every site' : (site.sites[outage.site]?.name ?? outage.site);
  const head = `${endedAt === null ? '▲ OUTAGE' : '✓ OVER'} · ${id}`;
  const counted = told === 1 ? '1 conversation was told' : `${told} conversations were told`;
  return cardWith(
    [
      {
        type: 'Container',
        style: endedAt === null ? 'warning' : 'emphasis',
        bleed: true,
        items: [
          line([run(head, { weight: 'Bolder' })]),
          line([run(`${about}, ${where}`, { weight: 'Bolder', size: 'Medium' })], { spacing: 'Small' }),
        ],
      },
      ...lines(cut(text, 1500)),
      line([run(`Declared by ${cut(declaredBy, 100)}. ${counted}.`, { size: 'Small', isSubtle: true })]),
      small(`Since ${clock(declaredAt)}${endedAt === null ? '' : ` · over since ${clock(endedAt)}`}`),
    ],
    endedAt === null ? [opens('It is over', { v: 'desk:outage-over', o: id })] : [],
    `${head} · ${about}, ${where}\n${text}`,
  );
}

/** `card`: conversation and id of the message that shows it; null: not known here. */
export const overForm = (id: string, card: { conversation: string; id: string } | null): Element =>
  cardWith(
    [line([run(`Is ${id} over? Everybody who was told of it is told that it is over.`)])],
    [sends('It is over', { v: 'desk:outage-end', o: id, m: card })],
    `Is ${id} over?`,
  );

/** What the desk can do that is not about one ticket. */
export const deskCard = (): Element =>
  cardWith(
    [heading('The desk'), small('For everybody who belongs to this place.')],
    [opens('An outage', { v: 'desk:outage' }), opens('Bench', { v: 'desk:bench' })],
    'The desk: an outage, or the bench',
  );
