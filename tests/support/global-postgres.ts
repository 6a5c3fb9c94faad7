/** One PostgreSQL server for all suites of a run: `inject('postgres')` is its address. */
import type { TestProject } from 'vitest/node';
import { startPostgres } from './postgres.ts';

declare module 'vitest' {
  interface ProvidedContext {
    postgres: string;
  }
}

export default async function setup(project: TestProject) {
  const server = await startPostgres();
  project.provide('postgres', server.address);
  return server.stop;
}
