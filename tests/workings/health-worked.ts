/** Health worked out, for its tests. */
import { health } from '#workings/health/index.ts';
import { workOut } from '#workings/working.ts';
import { hex, type NvmePage, nvmePage, QUIET } from './health-pages.ts';

export const worked = (input: unknown) => {
  const done = workOut(health, input);
  if (!done.ok) throw new Error(done.why);
  return done.output;
};
export const refused = (input: unknown): string => {
  const done = workOut(health, input);
  if (done.ok) throw new Error(`not refused: ${done.verdict}`);
  return done.why;
};
export const said = (input: unknown): string => {
  const done = workOut(health, input);
  if (!done.ok) throw new Error(done.why);
  return [...done.told.says, ...(done.told.table ?? []).flat(), ...done.told.limits].join('\n');
};
export const figures = (input: unknown) => worked(input).drives[0]!.figures;
export const values = (input: unknown) =>
  Object.fromEntries(Object.entries(figures(input)).map(([id, { value }]) => [id, value]));

/** The better, the smaller. */
export const rank = (input: unknown): number =>
  ['nothing-reported', 'watch', 'act-soon', 'past-its-limit'].indexOf(worked(input).verdict);
export const quiet = (change: Partial<NvmePage>) => ({ page: hex(nvmePage({ ...QUIET, ...change })) });
export const withCounter = (place: number, value: bigint) =>
  quiet({ counters: QUIET.counters.map((each, at) => (at === place ? value : each)) });

export const exact = (value: bigint) => (value <= Number.MAX_SAFE_INTEGER ? Number(value) : String(value));
