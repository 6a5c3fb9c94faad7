/** The page for whoever writes flows, followed to the letter. */
import { existsSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { step } from '#engine/schema.ts';
import { mistakesOf } from '#library/mistakes.ts';
import { readYaml } from '#library/yaml.ts';
import { reseatOn } from './support/terminal.ts';
import { type Played, played } from './support/tutorial.ts';

const page = readFileSync('flows/README.md', 'utf8');

describe('the way to a first flow', () => {
  let way: Played;
  beforeAll(async () => {
    way = await played(page);
  });

  test('prints what stands on the page (npm run readme writes it anew)', () => {
    expect(page).toBe(way.page);
  });

  test('begins well, has one mistake, and is mended', () => {
    expect(way.ran.filter(({ command }) => command.includes('reseat'))).toEqual([
      { command: 'npx reseat new flow disk-full', status: 0 },
      { command: 'npx reseat check disk-full', status: 1 },
      { command: 'npx reseat check disk-full', status: 0 },
      { command: 'npx reseat replay practice/disk-full/walks.yaml', status: 0 },
    ]);
    expect(page).toContain('Not safe yet: 1 place to mend');
    expect(page).toContain('    Person: ');
    expect(page).toMatch(/\n2 walks played, 0 came out differently\.\n/);
  });

  test('ends in a talk that helps', () => {
    expect(page).toMatch(/```text\n> [\s\S]*Good, then that is solved\./);
  });
});

describe('the rest of the page', () => {
  const [, reference = ''] = page.split('\n## A step\n');

  test('every step that it shows is one', () => {
    const shown = [...reference.matchAll(/```yaml\n([\s\S]*?)```/g)].map(match => match[1]!);
    expect(shown.length).toBeGreaterThan(0);
    for (const text of shown) expect(mistakesOf(readYaml('README.md', text), step.array())).toEqual([]);
  });

  test('it names every kind of step, and no command that there is not', async () => {
    const kinds = ['ask', 'try', 'say', 'caution', 'visit', 'hand_over', 'end'];
    for (const kind of kinds) expect(reference).toContain(`\`${kind}`);
    const { out } = await reseatOn('flows', '--help');
    const named = [...page.matchAll(/npx reseat ([a-z-]+)/g)].map(match => match[1]!);
    for (const command of new Set(named)) expect(out).toMatch(new RegExp(`^  ${command} `, 'm'));
  });

  test('the line for other editors leads to a schema', () => {
    const [, file] = /\$schema=\.\.\/(\S+?)`/.exec(page) ?? [];
    expect(existsSync(`flows/${file}`)).toBe(true);
  });
});
