export const median = (numbers: number[]): number =>
  numbers.toSorted((a, b) => a - b)[Math.floor(numbers.length / 2)] ?? 0;

export const say = (what: string, figure: string): void => console.log(`${what.padEnd(34)} ${figure}`);
