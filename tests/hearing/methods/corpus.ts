/** The openings as (text, symptom): the part that methods learn from, and the parts that only measure. */
import { existsSync, readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { SYMPTOMS } from '#engine/catalogue.ts';
import { firstTime } from '../../support/first-time.ts';
import { catalogue, load } from '../load.ts';

export interface Labelled {
  text: string;
  symptom: string;
}

type BySymptom = Record<string, string[]>;

const flat = (table: BySymptom): Labelled[] =>
  Object.entries(table).flatMap(([symptom, texts]) => texts.map(text => ({ text, symptom })));
const ofLanguages = (table: Record<string, BySymptom>): Labelled[] => Object.values(table).flatMap(flat);

export const tuned = (): Labelled[] => flat(load('openings.yaml'));
export const aside = (): Labelled[] => flat(load('openings-aside.yaml'));
export const languages = (): Labelled[] => ofLanguages(load('openings-languages.yaml'));
export const languagesAside = (): Labelled[] => ofLanguages(load('openings-languages-aside.yaml'));

/** The first words of the flows' walks, each once, where no walk has to say which symptom they are. */
export function walked(): Labelled[] {
  const isNew = firstTime();
  return SYMPTOMS.flatMap(symptom => {
    const file = new URL(`../../../flows/${symptom}/walks.yaml`, import.meta.url);
    if (!existsSync(file)) return [];
    const walks = parse(readFileSync(file, 'utf8')) as { opening?: string; says: { at: string }[] }[];
    return walks.flatMap(({ opening, says }) =>
      opening === undefined || says[0]?.at === '@symptom' ? [] : [{ text: opening, symptom }],
    );
  }).filter(isNew);
}

/** What the catalogue itself says of each symptom: its phrases and the messages on screens. */
export const written = (): Labelled[] => [
  ...flat(
    Object.fromEntries(
      Object.entries(catalogue.symptoms).map(([symptom, { phrases, also = {} }]) => [
        symptom,
        [...phrases, ...Object.values(also).flat()],
      ]),
    ),
  ),
  ...Object.values(catalogue.screenMessages).flatMap(({ texts, symptom }) =>
    texts.map(text => ({ text: text.replaceAll('*', ' '), symptom })),
  ),
];
