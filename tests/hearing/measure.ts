/** Prints how well the ear hears: `npx node tests/hearing/measure.ts [--wrong]`. `--wrong` lists the misheard of the tuned set only. */
import { hearOpening } from '#hearing/opening.ts';
import { load, type Openings, openings } from './load.ts';

const prepared = openings();
const showWrong = process.argv.includes('--wrong');

function measure(name: string, file: string, list: boolean): void {
  const cases = Object.entries(load<Record<string, string[]>>(file)).flatMap(([symptom, texts]) =>
    texts.map(text => ({ symptom, text })),
  );
  let right = 0;
  let offered = 0;
  let sure = 0;
  let sureRight = 0;
  let storage = 0;
  let away = 0;
  let awaySure = 0;
  for (const { symptom, text } of cases) {
    const heard = hearOpening(prepared, text);
    const good = heard.symptom === symptom;
    if (good) right++;
    if (good || heard.candidates.includes(symptom)) offered++;
    if (heard.sure) sure++;
    if (heard.sure && good) sureRight++;
    if (symptom !== 'not-storage') {
      storage++;
      if (heard.symptom === 'not-storage') away++;
      if (heard.symptom === 'not-storage' && heard.sure) awaySure++;
    }
    if (list && !good) {
      const scores = heard.ranked.slice(0, 3).map(one => `${one.symptom} ${one.score.toFixed(2)}`);
      console.log(
        `  ${heard.sure ? 'SURE ' : ''}${symptom} <- ${JSON.stringify(text)}: ${scores.join(', ')}`,
      );
    }
  }
  const share = (part: number, of: number): string => `${((100 * part) / of).toFixed(1)}% (${part}/${of})`;
  console.log(
    `${name}: right at first ${share(right, cases.length)}; right or offered ${share(offered, cases.length)}; ` +
      `sure ${share(sure, cases.length)}, right when sure ${share(sureRight, sure)}; ` +
      `storage turned away ${share(away, storage)}, surely ${share(awaySure, storage)}`,
  );
}

measure('openings tuned on', 'openings.yaml', showWrong);
measure('openings set aside', 'openings-aside.yaml', false);

export type { Openings };
