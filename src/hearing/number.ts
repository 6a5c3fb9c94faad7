/** A number in what was typed, brought to the unit that was asked for. */
import type { AnswerValue } from '#engine/entries.ts';

/** Decimal units of storage: manufacturers' terabytes. */
const STORAGE: Record<string, number> = { kb: 1e-6, mb: 1e-3, gb: 1, tb: 1e3, pb: 1e6 };

interface Limits {
  unit: string | null;
  minimum: number | null;
  maximum: number | null;
}

export function hearNumber(
  { unit, minimum, maximum }: Limits,
  text: string,
): { value: AnswerValue } | { wrong: string } {
  const asked = unit ?? '';
  const range = minimum === null || maximum === null ? '' : ` from ${minimum} to ${maximum}`;
  const expected = `Please write a number${asked === '' ? '' : ` in ${asked}`}${range}.`;
  const found = [...text.matchAll(/(-?\d+(?:[.,]\d+)?)\s*([a-zA-Z%°]*)/g)];
  const [first] = found;
  if (first === undefined || found.length > 1) return { wrong: expected };
  const [, figure = '', given = ''] = first;
  const number = Number(figure.replace(',', '.')) * scale(given, asked);
  if (!Number.isFinite(number)) return { wrong: expected };
  const outside = (minimum !== null && number < minimum) || (maximum !== null && number > maximum);
  return outside ? { wrong: expected } : { value: { number } };
}

function scale(given: string, asked: string): number {
  const from = STORAGE[given.toLowerCase()];
  const to = STORAGE[asked.toLowerCase()];
  return from === undefined || to === undefined ? 1 : from / to;
}
