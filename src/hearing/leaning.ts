/** Which way the single words lean, whatever phrase they would belong to: naive Bayes over the catalogue's phrases. */
export interface Leanings {
  /** Symptom to concept to how often its phrases say it. */
  said: Map<string, number>[];
  totals: number[];
  known: Set<string>;
}

/** Added to every count, so that a word unheard of rules nothing out. Common practice for short texts. */
const SMOOTHING = 0.3;
/** Even many words do not speak more strongly than this against a symptom. */
const FLOOR = -12;

export function prepareLeanings(
  symptoms: number,
  phrases: readonly { symptom: number; keys: string[] }[],
): Leanings {
  const said = Array.from({ length: symptoms }, () => new Map<string, number>());
  const totals = new Array<number>(symptoms).fill(0);
  const known = new Set<string>();
  for (const { symptom, keys } of phrases)
    for (const key of keys) {
      said[symptom]!.set(key, (said[symptom]!.get(key) ?? 0) + 1);
      totals[symptom]!++;
      known.add(key);
    }
  return { said, totals, known };
}

/** By symptom, 0 for the likeliest and below it for the others: natural logarithm of how much less likely. */
export function lean({ said, totals, known }: Leanings, keys: ReadonlySet<string>): number[] {
  const sums = totals.map(() => 0);
  for (const key of keys) {
    if (!known.has(key)) continue;
    for (const [symptom, total] of totals.entries())
      sums[symptom]! += Math.log(
        ((said[symptom]!.get(key) ?? 0) + SMOOTHING) / (total + SMOOTHING * known.size),
      );
  }
  const highest = Math.max(...sums);
  return sums.map(sum => Math.max(FLOOR, sum - highest));
}
