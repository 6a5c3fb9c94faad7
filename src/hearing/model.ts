/** A linear model of openings: a weight for every bucket and symptom, learned from tests/hearing/openings.yaml by `npm run hearing:train`. */
import { BUCKETS } from './features.ts';
import learned from './opening-model.json' with { type: 'json' };

export interface Model {
  symptoms: readonly string[];
  /** Bucket by bucket, a weight for each symptom, in units of `scale`. */
  weights: Int8Array;
  scale: number;
}

/** As it is kept in a file: the weights' bytes in base64. */
export interface KeptModel {
  symptoms: string[];
  scale: number;
  weights: string;
}

export function prepareModel({ symptoms, scale, weights }: KeptModel = learned): Model {
  const bytes = Int8Array.from(atob(weights), letter => letter.charCodeAt(0));
  if (bytes.length !== BUCKETS * symptoms.length)
    throw new Error('the model of openings does not fit its buckets; run npm run hearing:train');
  return { symptoms, scale, weights: bytes };
}

/** By symptom, how likely it is that these buckets speak of it; adds up to 1. */
export function judge(
  { symptoms, weights, scale }: Model,
  buckets: ReadonlySet<number>,
): Map<string, number> {
  const sums = symptoms.map(() => 0);
  for (const bucket of buckets)
    for (let at = 0; at < sums.length; at++) sums[at]! += weights[bucket * sums.length + at]!;
  const unit = scale / Math.sqrt(Math.max(1, buckets.size));
  const highest = Math.max(...sums);
  const powers = sums.map(sum => Math.exp((sum - highest) * unit));
  const total = powers.reduce((all, power) => all + power, 0);
  return new Map(symptoms.map((symptom, at) => [symptom, powers[at]! / total]));
}
