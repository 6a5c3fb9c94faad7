/**
 * The library as it was loaded last time: reading a hundred files of YAML and compiling them takes longer than most commands
 * do. It is kept beside the packages, under the hash of all that it was made from. Where nothing can be kept it is loaded anew.
 */
import { createHash, randomBytes } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import { KEPT, ROOT } from '../kept.ts';
import { filesOf, type Library, type Loaded, loadLibrary } from './load.ts';

/** Some megabytes each: the flows in use, and a few that are being tried. */
const MOST = 6;

/** As `loadLibrary`; flows without a mistake come from what was kept of them. */
export function loadKept(folder: string, kept = KEPT): Loaded {
  const name = quietly(() => nameOf(folder));
  // What is wrong with the folder is told by whoever reads it.
  if (name === null) return loadLibrary(folder);
  const file = join(kept, name);
  const library = quietly(() => deserialize(readFileSync(file)) as Library);
  if (library !== null) return { library, mistakes: [], place: placesIn(folder) };
  const loaded = loadLibrary(folder);
  // Saved meanwhile, it would stand under the name of what was there before.
  const same = quietly(() => nameOf(folder)) === name;
  if (loaded.library !== null && loaded.mistakes.length === 0 && same)
    quietly(() => keep(kept, file, loaded.library));
  return loaded;
}

/** Asked for only where something is wrong; then the files are read after all, once. */
function placesIn(folder: string): Loaded['place'] {
  let loaded: Loaded | null = null;
  return origin => {
    loaded ??= loadLibrary(folder);
    return loaded.place(origin);
  };
}

/** A file that is not there, is half written or may not be written: then it is as if nothing had been kept. */
function quietly<T>(does: () => T): T | null {
  try {
    return does();
  } catch {
    return null;
  }
}

/** Of everything that the library depends on: the flows, the code, and what the packages and the machine make of them. */
function nameOf(folder: string): string {
  const hash = createHash('sha256').update(process.version);
  const add = (file: string) => {
    const content = readFileSync(file);
    hash.update(`${file} ${content.length}\n`).update(content);
  };
  for (const file of filesOf(folder)) {
    hash.update(`${file}\n`);
    if (existsSync(join(folder, file))) add(join(folder, file));
  }
  const source = join(ROOT, 'src');
  for (const file of readdirSync(source, { recursive: true, encoding: 'utf8' }).sort())
    if (file.endsWith('.ts')) add(join(source, file));
  add(join(ROOT, 'package-lock.json'));
  return `flows-${hash.digest('hex')}`;
}

/** Whole or not at all: others may be reading. */
function keep(folder: string, file: string, library: Library | null): void {
  mkdirSync(folder, { recursive: true });
  const draft = `${file}.${randomBytes(6).toString('hex')}`;
  writeFileSync(draft, serialize(library));
  renameSync(draft, file);
  const all = readdirSync(folder).filter(name => name.startsWith('flows-'));
  const age = (name: string) => quietly(() => statSync(join(folder, name)).mtimeMs) ?? 0;
  const old = all
    .map(name => ({ name, at: age(name) }))
    .sort((a, b) => b.at - a.at)
    .slice(MOST);
  for (const { name } of old) rmSync(join(folder, name), { force: true });
}
