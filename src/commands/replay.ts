/** `reseat replay`: recorded walks against today's flows, all or those that are named. Exit 1 when one departs from what is written. */
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
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

const WALKS = 'walks.yaml';

/** Every flow's walks. */
const allIn = (flows: string): string[] =>
  readdirSync(flows)
    .map(name => join(flows, name, WALKS))
    .filter(existsSync);

/** A file, the folder that it is in, or a flow by its name. */
function fileOf(given: string, flows: string): string {
  const file = [given, join(given, WALKS), join(flows, given, WALKS)].find(
    path => existsSync(path) && statSync(path).isFile(),
  );
  if (file === undefined)
    throw new UserError(
      `There is no file ${given}, and no flow of that name with walks. Without a name all are played.`,
    );
  return file;
}

export async function replay(shell: Shell, files: string[]): Promise<void> {
  const knowledge = knowledgeFor(await shell.load());
  let played = 0;
  let departed = 0;
  const { flows } = await shell.config();
  for (const file of files.length === 0 ? allIn(flows) : files.map(given => fileOf(given, flows))) {
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
