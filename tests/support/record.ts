/**
 * The conversations in README.md, and everything in flows/README.md, as they really come out: played again from what is typed
 * in them. `npm run readme` writes them anew.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { proven } from './knowledge.ts';
import { recorded, typedIn } from './recorded.ts';
import { played } from './tutorial.ts';

const BLOCK = /```text\n(> [\s\S]*?)```/g;

const known = proven();

/** The page with every recorded conversation played anew. */
export function refreshed(page: string): string {
  return page.replace(BLOCK, (_, block: string) => `\`\`\`text\n${recorded(known, typedIn(block))}\`\`\``);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  writeFileSync('README.md', refreshed(readFileSync('README.md', 'utf8')));
  const { page } = await played(readFileSync('flows/README.md', 'utf8'));
  writeFileSync('flows/README.md', page);
}
