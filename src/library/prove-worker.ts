/** The proof in a thread of its own: whoever is being talked to does not wait for it, and its memory goes with it. */
import { parentPort, workerData } from 'node:worker_threads';
import { check } from '#engine/check/check.ts';
import type { ToProve, Verdict } from './prove.ts';

const { compiled, catalogue } = workerData as ToProve;
const { broken, each } = check(compiled, catalogue);
const [first] = broken;
const verdict: Verdict = {
  longest: Object.fromEntries(each.map(({ flow, longest }) => [flow, longest])),
  broken: first === undefined ? null : { unit: first.unit, path: first.path, message: first.message },
};
parentPort?.postMessage(verdict);
