/** `npm run reading [-- KIND...]`: how many screens are recognised in pictures of every kind. `--wrong` lists the others. */
import { preparePhotos, seenOn } from '#hearing/photo.ts';
import { screenReader } from '#reading/screens/reader.ts';
import { linesOf } from '#reading/screens/words.ts';
import { catalogue, openings } from '../../hearing/load.ts';
import { ALL, KINDS, picture } from './pictures.ts';

const [asked, flags] = [process.argv.slice(2).filter(each => !each.startsWith('-')), process.argv.slice(2)];
const wrong = flags.includes('--wrong');
const photos = preparePhotos(catalogue.screenMessages);
const { codes } = openings();
const reader = screenReader({ log: (event, details) => console.error(event, details) });

interface Row {
  pictures: number;
  right: number;
  silent: number;
  other: number;
  /** Of pictures that show no message. */
  invented: number;
  milliseconds: number[];
}

console.log(
  '| pictures | of messages | read right | nothing said | another message | of others, wrongly heard | seconds (median) |',
);
console.log('| --- | --- | --- | --- | --- | --- | --- |');
const all: Row = { pictures: 0, right: 0, silent: 0, other: 0, invented: 0, milliseconds: [] };
for (const kind of asked.length > 0 ? asked : KINDS) {
  const row: Row = { pictures: 0, right: 0, silent: 0, other: 0, invented: 0, milliseconds: [] };
  for (const at of ALL.keys()) {
    const { shown, picture: sent } = await picture(kind, at);
    const begun = performance.now();
    const words = await reader.read(sent);
    row.milliseconds.push(performance.now() - begun);
    const text = linesOf(words ?? []);
    const seen = seenOn(photos, codes, text);
    const means = seen === null ? null : (shown.same ?? []).includes(seen.id) ? shown.id : seen.id;
    if (shown.id === null) row.invented += seen === null ? 0 : 1;
    else {
      row.pictures++;
      if (means === shown.id) row.right++;
      else if (seen === null) row.silent++;
      else row.other++;
    }
    if (wrong && means !== shown.id) console.log(kind, at, shown.id, '->', seen, JSON.stringify(text));
  }
  print(kind, row);
  for (const key of ['pictures', 'right', 'silent', 'other', 'invented'] as const) all[key] += row[key];
  all.milliseconds.push(...row.milliseconds);
}
print('all', all);
await reader.close();

function print(kind: string, { pictures, right, silent, other, invented, milliseconds }: Row): void {
  const median = [...milliseconds].sort((a, b) => a - b)[Math.floor(milliseconds.length / 2)] ?? 0;
  const share = `${((100 * right) / pictures).toFixed(1)}%`;
  console.log(
    `| ${kind} | ${pictures} | ${share} | ${silent} | ${other} | ${invented} of ${milliseconds.length - pictures} | ${(median / 1000).toFixed(1)} |`,
  );
}
