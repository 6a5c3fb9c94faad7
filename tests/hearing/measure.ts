/** Prints how well openings are heard: `npm run hearing [-- --wrong]`. `--wrong` lists the misheard of the parts tuned on only. */
import { accuracyOf } from './accuracy.ts';
import { openings } from './load.ts';
import { aside, type Labelled, languages, languagesAside, tuned } from './methods/corpus.ts';

const prepared = openings();
const share = (part: number, of: number): string => `${((100 * part) / of).toFixed(1)}% (${part}/${of})`;

function print(name: string, cases: readonly Labelled[], list: boolean): void {
  const { right, offered, sure, sureRight, storage, away, awaySure, wrong } = accuracyOf(prepared, cases);
  if (list)
    for (const one of wrong)
      console.log(`  ${one.sure ? 'SURE ' : ''}${one.symptom} <- ${JSON.stringify(one.text)}: ${one.heard}`);
  console.log(
    `${name}: right at first ${share(right, cases.length)}; right or offered ${share(offered, cases.length)}; ` +
      `sure ${share(sure, cases.length)}, right when sure ${share(sureRight, sure)}; ` +
      `storage turned away ${share(away, storage)}, surely ${share(awaySure, storage)}`,
  );
}

const list = process.argv.includes('--wrong');
print('openings tuned on', tuned(), list);
print('openings set aside', aside(), false);
print('German, French, Spanish tuned on', languages(), list);
print('German, French, Spanish set aside', languagesAside(), false);
