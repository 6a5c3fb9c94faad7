/** Learns the model of openings anew: `npm run hearing:train`. Nothing set aside is read. */
import { writeFileSync } from 'node:fs';
import { keep, learn } from './model.ts';

const file = new URL('../../../src/hearing/opening-model.json', import.meta.url);
writeFileSync(file, `${JSON.stringify(keep(learn()), null, 2)}\n`);
console.log(`learned: ${file.pathname}`);
