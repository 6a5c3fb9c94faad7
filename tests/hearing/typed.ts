/** Prints how typed answers are heard: `npm run hearing:answers`. `-- --wrong` lists those that are heard otherwise. */
import { answersHeard } from './answered.ts';

const { answers, right, wrong } = answersHeard();
console.log(
  `${answers} typed answers, ${right} heard as meant (${((100 * right) / answers).toFixed(1)}%); answers taken for another: ${wrong.filter(each => each.heard !== null).length}`,
);
if (process.argv.includes('--wrong'))
  for (const { question, text, meant, heard } of wrong)
    console.log(`  ${question}: "${text}" means ${meant}, heard ${heard ?? 'as nothing'}`);
