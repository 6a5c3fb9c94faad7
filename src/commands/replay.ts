/** `reseat replay`: recorded walks against today's flows. Exit 1 when one departs from what is written. */
import { existsSync, readFileSync } from 'node:fs';
import { prepareOpenings } from '#hearing/opening.ts';
import { type Loaded, mistakeText } from '#library/load.ts';
import { readAs } from '#library/mistakes.ts';
import { readYaml } from '#library/yaml.ts';
import type { Knowledge } from '#talk/knowledge.ts';
import { playWalk, walks } from '#talk/walk.ts';
import { UserError } from '../errors.ts';
import type { Shell } from './wired.ts';

const HOUR = 3_600_000;

export function knowledgeFor({ library, mistakes }: Pick<Loaded, 'library' | 'mistakes'>): Knowledge {
  if (library === null || mistakes.length > 0) throw new UserError(mistakes.map(mistakeText).join('\n'));
  const { catalogue, site, flows } = library;
  const openings = prepareOpenings(catalogue);
  const settings = { nudgeAfter: 4 * HOUR, leftAfter: 72 * HOUR, boards: [] };
  return { catalogue, site, flows, openings, confirmed: {}, outages: [], settings };
}

export async function replay(shell: Shell, files: string[]): Promise<void> {
  const knowledge = knowledgeFor(await shell.load());
  let played = 0;
  let departed = 0;
  for (const file of files) {
    if (!existsSync(file)) throw new UserError(`There is no file ${file}.`);
    const source = readYaml(file, readFileSync(file, 'utf8'));
    const { value, mistakes } = readAs(source, walks);
    if (value === null) throw new UserError(mistakes.map(mistakeText).join('\n'));
    for (const [index, walk] of value.entries()) {
      played += 1;
      const departure = playWalk(knowledge, walk);
      if (departure === null) continue;
      departed += 1;
      shell.output.write(
        `${file}:${source.line([index, ...departure.path])}: ${walk.walk}: ${departure.message}\n`,
      );
    }
  }
  shell.output.write(
    `${played} ${played === 1 ? 'walk' : 'walks'} played, ${departed} came out differently.\n`,
  );
  shell.exit(departed === 0 ? 0 : 1);
}
