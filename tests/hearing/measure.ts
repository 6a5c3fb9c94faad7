/** Prints how well the ear hears: `npx node tests/hearing/measure.ts [--wrong]`. `--wrong` lists the misheard of the tuned set only. */
import { accuracyOf } from './accuracy.ts';
import { openings } from './load.ts';

const prepared = openings();
const share = (part: number, of: number): string => `${((100 * part) / of).toFixed(1)}% (${part}/${of})`;

function print(name: string, file: string, list: boolean): void {
  const { cases, right, offered, sure, sureRight, storage, away, awaySure, wrong } = accuracyOf(
    prepared,
    file,
  );
  if (list)
    for (const one of wrong)
      console.log(`  ${one.sure ? 'SURE ' : ''}${one.symptom} <- ${JSON.stringify(one.text)}: ${one.heard}`);
  console.log(
    `${name}: right at first ${share(right, cases)}; right or offered ${share(offered, cases)}; ` +
      `sure ${share(sure, cases)}, right when sure ${share(sureRight, sure)}; ` +
      `storage turned away ${share(away, storage)}, surely ${share(awaySure, storage)}`,
  );
}

print('openings tuned on', 'openings.yaml', process.argv.includes('--wrong'));
print('openings set aside', 'openings-aside.yaml', false);
