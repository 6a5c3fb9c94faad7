import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { interrupts, osCodes, screenMessages, symptoms } from '#engine/catalogue.ts';
import { type Openings, prepareOpenings } from '#hearing/opening.ts';

export type { Openings };

const read = (path: string): unknown => parse(readFileSync(new URL(path, import.meta.url), 'utf8'));

/** A table of cases beside this file. */
export const load = <T>(name: string): T => read(name) as T;

export const catalogue = {
  symptoms: symptoms.parse(read('../../flows/catalogue/symptoms.yaml')),
  screenMessages: screenMessages.parse(read('../../flows/catalogue/screen-messages.yaml')),
  osCodes: osCodes.parse(read('../../flows/catalogue/os-codes.yaml')),
  interrupts: interrupts.parse(read('../../flows/catalogue/interrupts.yaml')),
};
export const openings = (): Openings => prepareOpenings(catalogue);
