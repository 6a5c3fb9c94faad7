/** Reads flows/ into compiled scripts. Everything wrong is collected with file, line and remedy; nothing is thrown but a missing folder. */
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join, relative } from 'node:path';
import type { z } from 'zod';
import * as shapes from '#engine/catalogue.ts';
import { type Compiled, compile, type Origin } from '#engine/compile.ts';
import { choiceOf } from '#engine/near.ts';
import { type Block, block, type Flow, flow, isDeskTopic } from '#engine/schema.ts';
import type { Script } from '#engine/script.ts';
import { checkTokens } from '#engine/tokens.ts';
import { UserError } from '../errors.ts';
import { disagreements } from './agree.ts';
import { hashOf } from './hash.ts';
import { type Mistake, readAs } from './mistakes.ts';
import { readYaml, type Source } from './yaml.ts';

export interface Library {
  catalogue: shapes.Catalogue;
  site: shapes.Site;
  blocks: Record<string, Block>;
  /** By symptom. */
  /** `longest`: questions of the longest conversation on it, once proven. */
  flows: Record<
    string,
    { written: Flow; compiled: Compiled; script: Script; hash: string; longest: number | null }
  >;
}

export interface Loaded {
  /** Null when the files do not even fit their shapes. */
  library: Library | null;
  mistakes: Mistake[];
  /** File and line of a place that the compiler or the checker names. */
  place(origin: Origin): { file: string; line: number };
}

export const CATALOGUE = {
  symptoms: ['symptoms.yaml', shapes.symptoms],
  faults: ['faults.yaml', shapes.faults],
  cautions: ['cautions.yaml', shapes.cautions],
  interrupts: ['interrupts.yaml', shapes.interrupts],
  screenMessages: ['screen-messages.yaml', shapes.screenMessages],
  osCodes: ['os-codes.yaml', shapes.osCodes],
  policies: ['policies.yaml', shapes.policies],
} as const;

/** Loads the folder. `RESEAT_FLOWS` may name another than flows. */
export function loadLibrary(folder: string): Loaded {
  if (!existsSync(folder) || !statSync(folder).isDirectory()) {
    throw new UserError(`There is no folder ${folder}. Set RESEAT_FLOWS to the folder with the flows.`);
  }
  const sources = new Map<string, Source>();
  const mistakes: Mistake[] = [];
  const place = ({ unit, path }: Origin) => {
    const source = sources.get(unit);
    return { file: source?.file ?? unit, line: source?.line(path) ?? 1 };
  };
  const read = <T>(unit: string, file: string, schema: z.ZodType<T>): T | null => {
    const path = join(folder, file);
    if (!existsSync(path)) {
      const misnamed = [path.replace(/\.yaml$/, '.yml'), `${path}.txt`].find(existsSync);
      mistakes.push({
        file: shown(path),
        line: 1,
        message: 'the file is missing',
        remedy: misnamed === undefined ? 'add it' : `there is ${shown(misnamed)}: give that one this name`,
      });
      return null;
    }
    const unfit = unreadable(path);
    if (unfit !== null) {
      mistakes.push({ file: shown(path), line: 1, ...unfit });
      return null;
    }
    const source = readYaml(shown(path), readFileSync(path, 'utf8'));
    sources.set(unit, source);
    const given = readAs(source, schema);
    mistakes.push(...given.mistakes);
    return given.value;
  };

  const site = read('site', 'site.yaml', shapes.site);
  const parts = Object.entries(CATALOGUE).map(([name, [file, schema]]) => [
    name,
    read(`catalogue/${file}`, join('catalogue', file), schema as z.ZodType),
  ]);
  // Without the names that every object has: somebody may visit a "constructor".
  const blocks: Record<string, Block> = Object.create(null);
  for (const name of foldersIn(join(folder, 'blocks'))) {
    const found = read(`blocks/${name}`, join('blocks', name, 'block.yaml'), block);
    if (found === null) continue;
    needName(found.block, name, `blocks/${name}`);
    blocks[name] = found;
  }
  const flows: Record<string, Flow> = {};
  for (const name of flowsIn(folder)) {
    const found = read(name, join(name, 'flow.yaml'), flow);
    if (found === null) continue;
    needName(found.symptom, name, name);
    needSymptom(name);
    // What is wrong in it is told by its folder, whatever it calls itself.
    flows[name] = { ...found, symptom: name };
  }
  function needName(given: string, name: string, unit: string): void {
    if (given !== name) {
      mistakes.push({
        ...place({ unit, path: [] }),
        message: `the folder is called ${name}, the file says ${given}`,
        remedy: 'give both the same name',
      });
    }
  }

  function needSymptom(name: string): void {
    if (isDeskTopic(name) || [...shapes.SYMPTOMS, shapes.ANY].includes(name)) return;
    mistakes.push({
      ...place({ unit: name, path: ['symptom'] }),
      message: `"${name}" is no symptom`,
      remedy: choiceOf(
        name,
        shapes.SYMPTOMS,
        `name it desk-${name} if it is for technicians, or after one of: ${shapes.SYMPTOMS.join(', ')}`,
      ),
    });
  }

  if (site === null || parts.some(([, part]) => part === null)) return { library: null, mistakes, place };
  const catalogue = Object.fromEntries(parts) as unknown as shapes.Catalogue;
  const library: Library = { catalogue, site, blocks, flows: {} };
  const said = new Set<string>();
  for (const [symptom, each] of Object.entries(flows)) {
    const compiled = compile(each, blocks, catalogue, site);
    for (const problem of compiled.problems) {
      const mistake = { ...place(problem), message: problem.message, remedy: problem.remedy };
      // A mistake in a block is one mistake, however many flows visit it.
      const key = `${mistake.file}:${mistake.line}:${mistake.message}`;
      if (!said.has(key)) mistakes.push(mistake);
      said.add(key);
    }
    library.flows[symptom] = {
      written: each,
      compiled,
      script: compiled.script,
      hash: hashOf(compiled.script),
      longest: null,
    };
  }
  const scripts = Object.fromEntries(
    Object.entries(library.flows).map(([name, each]) => [name, each.script]),
  );
  for (const { message, remedy, ...origin } of [
    ...checkTokens(scripts, catalogue),
    ...disagreements(catalogue, site),
  ]) {
    mistakes.push({ ...place(origin), message, remedy });
  }
  return { library, mistakes, place };
}

/** All that a library is read from, there or not, within the folder. */
export const filesOf = (folder: string): string[] => [
  'site.yaml',
  ...Object.values(CATALOGUE).map(([file]) => join('catalogue', file)),
  ...foldersIn(join(folder, 'blocks')).map(name => join('blocks', name, 'block.yaml')),
  ...flowsIn(folder).map(name => join(name, 'flow.yaml')),
];

const flowsIn = (folder: string): string[] =>
  foldersIn(folder).filter(each => each !== 'blocks' && each !== 'catalogue');

/** Ours have 100 kB at most; a file as large as a program's log would hold up every start. */
const MOST_BYTES = 2_000_000;

function unreadable(path: string): { message: string; remedy: string } | null {
  const about = statSync(path);
  if (!about.isFile()) return { message: 'this is a folder', remedy: 'put a file of that name in its place' };
  if (about.size > MOST_BYTES)
    return {
      message: `the file has ${Math.ceil(about.size / 1_000_000)} MB, and ${MOST_BYTES / 1_000_000} is the most`,
      remedy: 'is it the right file? Else take out what nobody needs',
    };
  return null;
}

const shown = (path: string): string => relative(process.cwd(), path) || path;

const foldersIn = (folder: string): string[] =>
  existsSync(folder)
    ? readdirSync(folder, { withFileTypes: true })
        .filter(entry => entry.isDirectory() && !entry.name.startsWith('.'))
        .map(entry => entry.name)
        .sort()
    : [];

/** One line, whatever stands in the file. */
export const mistakeText = ({ file, line, message, remedy }: Mistake): string =>
  `${file}:${line}: ${message}. ${remedy[0]?.toUpperCase()}${remedy.slice(1)}.`.replace(/\s+/g, ' ');
