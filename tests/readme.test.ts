import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { refreshed } from './support/record.ts';

const page = readFileSync('README.md', 'utf8');

describe('the first page', () => {
  test('shows conversations as they really look (npm run readme writes them anew)', () => {
    expect(page).toContain('```text\n> ');
    expect(page).toBe(refreshed(page));
  });

  test('one of them ends fixed, and one with a ticket', () => {
    expect(page).toContain('Good, then that is solved.');
    expect(page).toMatch(/Ticket R-\d+/);
  });

  test('names only files and scripts that are there', () => {
    const links = [...page.matchAll(/\]\((?!https?:|#)([^)]+)\)/g)].map(match => match[1]!);
    expect(links.filter(link => !existsSync(link))).toEqual([]);
    const scripts = JSON.parse(readFileSync('package.json', 'utf8')).scripts;
    const named = [...`${page}${readFileSync('DEVELOPERS.md', 'utf8')}`.matchAll(/npm run ([a-z:]+)/g)].map(
      match => match[1]!,
    );
    expect(named.filter(name => !(name in scripts))).toEqual([]);
  });
});
