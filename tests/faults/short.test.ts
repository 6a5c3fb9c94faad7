import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, inject, test } from 'vitest';
import { freshDatabase } from '../support/postgres.ts';
import { broken, faults } from './run.ts';

const plan = { conversations: 16, kills: 4, load: 8, seed: 20 };

describe('killed at random moments, again and again', () => {
  test('on SQLite no answer, ticket or message is lost or doubled', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'reseat-'));
    const figures = await faults({ ...plan, database: join(folder, 'reseat.db') });
    console.info('SQLite', figures);
    expect(broken(figures)).toEqual([]);
    expect(figures).toMatchObject({ conversations: 16, kills: 4 });
    rmSync(folder, { recursive: true });
  }, 120_000);

  test('on PostgreSQL no answer, ticket or message is lost or doubled', async () => {
    const figures = await faults({ ...plan, database: await freshDatabase(inject('postgres')) });
    console.info('PostgreSQL', figures);
    expect(broken(figures)).toEqual([]);
    expect(figures).toMatchObject({ conversations: 16, kills: 4 });
  }, 120_000);
});
