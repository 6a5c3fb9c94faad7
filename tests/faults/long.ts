/** `npm run faults`: 300 conversations under load on each database, the process killed at random moments. Prints its figures; exit 1 when a promise is broken. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { freshDatabase, startPostgres } from '../support/postgres.ts';
import { broken, faults } from './run.ts';

const CONVERSATIONS = 300;
const seed = Number(process.argv[2] ?? Date.now() % 100_000);
const folder = mkdtempSync(join(tmpdir(), 'reseat-faults-'));
const server = await startPostgres();
let status = 0;
for (const [name, database] of [
  ['SQLite', join(folder, 'reseat.db')],
  ['PostgreSQL', await freshDatabase(server.address)],
] as const) {
  const figures = await faults({ database, conversations: CONVERSATIONS, kills: 40, seed, load: 30 });
  console.log(`${name}, seed ${seed}:`);
  for (const [what, figure] of Object.entries(figures)) console.log(`  ${what.padEnd(22)} ${figure}`);
  const wrong = broken(figures);
  if (wrong.length > 0) {
    console.log(`  BROKEN: ${wrong.join(', ')}`);
    status = 1;
  }
}
await server.stop();
rmSync(folder, { recursive: true });
process.exitCode = status;
