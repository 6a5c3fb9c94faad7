/**
 * A page that somebody can follow, followed: its fenced blocks are played in order in a folder of their own. `sh` is done, `yaml`
 * is written into the file that its first line names, and `text` is what came out, or a conversation of what is typed in it.
 */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { loadLibrary } from '#library/load.ts';
import { proven } from './knowledge.ts';
import { recorded, typedIn } from './recorded.ts';
import { reseatOn } from './terminal.ts';

export interface Played {
  /** The page with what really came out. */
  page: string;
  /** Commands in order with the status they ended with. */
  ran: { command: string; status: number }[];
}

/** Everything behind the heading of the way to follow, up to the next one. */
const WAY = /(?<=^## Write your first flow[^\n]*\n)[\s\S]*?(?=^## |$(?![\s\S]))/m;
const FENCE = /```(sh|yaml|text)\n([\s\S]*?)```/g;

/** What other flows share, so that the ones that are not looked at take no time. */
const SHARED = ['any', 'blocks', 'catalogue', 'site.yaml'];

export async function played(page: string): Promise<Played> {
  const home = mkdtempSync(join(tmpdir(), 'reseat-'));
  const ran: Played['ran'] = [];
  const settings: Record<string, string> = {};
  let out = '';

  async function run(command: string): Promise<void> {
    const [program, ...words] = command.split(' ');
    const done = (status: number) => ran.push({ command, status });
    const here = (path: string | undefined) => join(home, path ?? '');
    if (program === 'cp' && words[0] === '-r') {
      for (const part of SHARED) {
        cpSync(join(words[1]!, part), join(here(words[2]), part), { recursive: true });
      }
      done(0);
    } else if (program === 'rm' && words[0] === '-r') {
      rmSync(here(words[1]), { recursive: true, force: true });
      done(0);
    } else if (program === 'export') {
      const [name, value] = words.join(' ').split('=');
      settings[name!] = value!;
      done(0);
    } else if (command.startsWith('npx reseat ') && words[1] !== 'chat') {
      const own = words.slice(1).map(word => (word.startsWith('practice/') ? here(word) : word));
      const printed = await reseatOn(here(settings.RESEAT_FLOWS), ...own);
      const plain = (text: string) =>
        text.replaceAll(`${relative(process.cwd(), home)}/`, '').replaceAll(`${home}/`, '');
      out = plain(printed.errors + printed.out);
      done(printed.status);
    } else if (command !== 'npx reseat chat') {
      throw new Error(`Nobody has taught the test to do this: ${command}`);
    }
  }

  function write(block: string): void {
    const [, file, step] = /^# (\S+?)(?:, the step (\S+))?\n/.exec(block) ?? [];
    if (file === undefined) throw new Error(`This names no file in its first line:\n${block}`);
    const path = join(home, file);
    const body = block.slice(block.indexOf('\n') + 1);
    if (step === undefined) return writeFileSync(path, body);
    const text = readFileSync(path, 'utf8');
    const old = new RegExp(`^  - id: ${step}\\n(?:    .*\\n)*`, 'm');
    if (!old.test(text)) throw new Error(`There is no step ${step} in ${file}.`);
    writeFileSync(
      path,
      text.replace(old, () => body),
    );
  }

  try {
    const [way] = WAY.exec(page) ?? [];
    if (way === undefined) throw new Error('The page has no way to follow.');
    let told = '';
    let from = 0;
    for (const fence of way.matchAll(FENCE)) {
      const [whole, kind, block] = fence as unknown as [string, string, string];
      told += way.slice(from, fence.index);
      from = fence.index + whole.length;
      if (kind === 'sh') for (const command of block.trim().split('\n')) await run(command);
      if (kind === 'yaml') write(block);
      const talk = block.startsWith('> ');
      const known = () => proven(loadLibrary(join(home, settings.RESEAT_FLOWS!)));
      told += kind !== 'text' ? whole : `\`\`\`text\n${talk ? recorded(known(), typedIn(block)) : out}\`\`\``;
    }
    return { page: page.replace(WAY, () => told + way.slice(from)), ran };
  } finally {
    rmSync(home, { recursive: true });
  }
}
