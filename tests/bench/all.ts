/** Every figure that the documentation quotes. Ratios within one run, so that another machine can repeat them. */
import { availableParallelism, totalmem } from 'node:os';
import { engine } from './engine.ts';
import { say } from './figures.ts';
import { start } from './process.ts';
import { turns } from './turns.ts';
import { web } from './web.ts';

say(
  'machine',
  `${availableParallelism()} cores, ${Math.round(totalmem() / 2 ** 30)} GiB, Node ${process.version}`,
);
engine();
await turns();
await start();
await web();
