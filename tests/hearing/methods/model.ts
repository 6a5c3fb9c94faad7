/** From openings to the model that src/hearing keeps. */
import { SYMPTOMS } from '#engine/catalogue.ts';
import { conceptsOf, type Ear, ear } from '#hearing/concepts.ts';
import { BUCKETS, featuresOf } from '#hearing/features.ts';
import type { KeptModel } from '#hearing/model.ts';
import { prepareScreens, screenWords } from '#hearing/screen.ts';
import { listen } from '#hearing/words.ts';
import { catalogue } from '../load.ts';
import { type Labelled, languages, tuned, walked, written } from './corpus.ts';
import { type Fit, regress, type Sample } from './linear.ts';

/** The catalogue's phrases are shorter than what people write, and count half. */
const WRITTEN = 0.5;
/** Weights beyond this, in the model's own unit, are as good as it. */
const MOST = 127;

export const hearing: Ear = ear([
  ...written().map(({ text }) => text),
  ...Object.values(catalogue.symptoms).flatMap(({ not = [] }) => not),
  ...screenWords(prepareScreens(catalogue.screenMessages)),
]);

export function featuresIn(text: string): Set<number> {
  const words = listen(text);
  return featuresOf(words, conceptsOf(hearing, words));
}

const samples = (texts: readonly Labelled[], weight: number): Sample[] =>
  texts.map(({ text, symptom }) => ({
    features: featuresIn(text),
    label: SYMPTOMS.indexOf(symptom as (typeof SYMPTOMS)[number]),
    weight,
  }));

/** Learns from `texts` (unless given: all that is not set aside), and from the catalogue. */
export const learn = (texts: readonly Labelled[] = [...tuned(), ...languages(), ...walked()]): Fit =>
  regress([...samples(texts, 1), ...samples(written(), WRITTEN)], BUCKETS, SYMPTOMS.length);

export function keep({ weights }: Fit): KeptModel {
  const sizes = Float32Array.from(weights, Math.abs).sort();
  // A few outliers must not cost the others their precision.
  const scale = sizes[Math.floor(sizes.length * 0.9999)]! / MOST;
  const bytes = Int8Array.from(weights, weight =>
    Math.max(-MOST, Math.min(MOST, Math.round(weight / scale))),
  );
  return {
    symptoms: [...SYMPTOMS],
    scale,
    weights: Buffer.from(bytes.buffer).toString('base64'),
  };
}
