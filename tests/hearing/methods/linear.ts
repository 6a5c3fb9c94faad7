/** Multinomial logistic regression by adaptive gradient steps (Duchi, Hazan, Singer 2011): small, deterministic, nothing to install. */

/** One text: the buckets that it fills, its label, and how much it counts. */
export interface Sample {
  features: ReadonlySet<number>;
  label: number;
  weight: number;
}

export interface Fit {
  labels: number;
  /** Feature by feature, a weight for each label. */
  weights: Float32Array;
}

const EPOCHS = 12;
const RATE = 1;
const SHRINK = 1e-6;

export function regress(samples: readonly Sample[], features: number, labels: number): Fit {
  const weights = new Float32Array(features * labels);
  const squares = new Float32Array(features * labels).fill(1e-2);
  const order = samples.map((_, at) => at);
  const chance = shuffler(7);
  for (let epoch = 0; epoch < EPOCHS; epoch++) {
    chance(order);
    for (const at of order) {
      const { features: filled, label, weight } = samples[at]!;
      const likely = likelihood({ labels, weights }, filled);
      const share = 1 / Math.sqrt(Math.max(1, filled.size));
      for (const feature of filled)
        for (let one = 0; one < labels; one++) {
          const place = feature * labels + one;
          const slope = weight * (likely[one]! - (one === label ? 1 : 0)) * share + SHRINK * weights[place]!;
          squares[place]! += slope * slope;
          weights[place]! -= (RATE * slope) / Math.sqrt(squares[place]!);
        }
    }
  }
  return { labels, weights };
}

export function likelihood({ labels, weights }: Fit, filled: ReadonlySet<number>): number[] {
  const sums = new Array<number>(labels).fill(0);
  for (const feature of filled)
    for (let one = 0; one < labels; one++) sums[one]! += weights[feature * labels + one]!;
  const share = 1 / Math.sqrt(Math.max(1, filled.size));
  const highest = Math.max(...sums);
  const powers = sums.map(sum => Math.exp((sum - highest) * share));
  const total = powers.reduce((all, power) => all + power, 0);
  return powers.map(power => power / total);
}

/** The same order every time. */
function shuffler(seed: number): (order: number[]) => void {
  let state = seed;
  const next = () => {
    state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
    return state / 0x80000000;
  };
  return order => {
    for (let at = order.length - 1; at > 0; at--) {
      const other = Math.floor(next() * (at + 1));
      [order[at], order[other]] = [order[other]!, order[at]!];
    }
  };
}
