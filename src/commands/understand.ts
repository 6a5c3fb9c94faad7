/** `reseat understand`: which symptom is this. Needs no database. */
import { createInterface } from 'node:readline';
import { hearOpening, type Openings, prepareOpenings } from '#hearing/opening.ts';
import { mistakeText } from '#library/load.ts';
import { UserError } from '../errors.ts';
import type { Shell } from './wired.ts';

export async function understand(
  shell: Shell,
  text: string | undefined,
  options: { json: boolean },
): Promise<void> {
  const { library, mistakes } = await shell.load();
  if (library === null) throw new UserError(mistakes.map(mistakeText).join('\n'));
  const openings = prepareOpenings(library.catalogue);
  if (text !== undefined) {
    shell.output.write(
      options.json ? `${json(openings, text)}\n` : words(openings, text, library.catalogue.symptoms),
    );
    return;
  }
  for await (const line of createInterface({ input: shell.input })) {
    shell.output.write(
      options.json ? `${json(openings, line)}\n` : words(openings, line, library.catalogue.symptoms),
    );
  }
}

function json(openings: Openings, text: string): string {
  const { symptom, sure, ranked } = hearOpening(openings, text);
  return JSON.stringify({ text, symptom, sure, ranked });
}

function words(openings: Openings, text: string, symptoms: Record<string, { title: string }>): string {
  const { symptom, sure, ranked } = hearOpening(openings, text);
  if (symptom === null) return 'Names no symptom.\n';
  const lines = ranked
    .filter(each => each.score > 0)
    .slice(0, 3)
    .map(each => `  ${each.score.toFixed(2)}  ${each.symptom}: ${symptoms[each.symptom]?.title ?? ''}`);
  return `${symptom}${sure ? '' : ' (not sure: the likeliest are offered)'}\n${lines.join('\n')}\n`;
}
