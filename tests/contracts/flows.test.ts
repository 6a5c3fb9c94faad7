/** What every flow must fulfil. Finds the flows by reading the folder, so a new one is tested without being named anywhere. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { check } from '#engine/check/check.ts';
import { reportText } from '#engine/check/report.ts';
import { readsOf } from '#engine/condition.ts';
import type { Step } from '#engine/script.ts';
import { loadKept } from '#library/kept.ts';
import { mistakeText } from '#library/load.ts';
import { mistakesOf } from '#library/mistakes.ts';
import { readYaml } from '#library/yaml.ts';
import { playWalk, walks } from '#talk/walk.ts';
import { knowledgeFor } from '../../src/commands/replay.ts';

const loaded = loadKept('flows');
const library = loaded.library!;
const flows = readdirSync('flows', { withFileTypes: true })
  .filter(entry => entry.isDirectory() && existsSync(`flows/${entry.name}/flow.yaml`))
  .map(entry => entry.name);

test('the files have no mistakes', () => {
  expect(loaded.mistakes.map(mistakeText)).toEqual([]);
});

test('every rule holds on every path of every flow', () => {
  const report = check(
    Object.values(library.flows).map(({ compiled }) => compiled),
    library.catalogue,
  );
  expect(report.broken, reportText(report, loaded.place)).toEqual([]);
});

describe.each(flows)('%s', flow => {
  const file = `flows/${flow}/walks.yaml`;
  const source = readYaml(file, readFileSync(file, 'utf8'));
  const knowledge = knowledgeFor(loaded);

  test('its walks are well written', () => {
    expect(mistakesOf(source, walks).map(mistakeText)).toEqual([]);
  });

  test('its walks come out as written', () => {
    const departures = walks.parse(source.value).flatMap((walk, index) => {
      const departure = playWalk(knowledge, walk);
      return departure === null
        ? []
        : [`${file}:${source.line([index, ...departure.path])}: ${walk.walk}: ${departure.message}`];
    });
    expect(departures).toEqual([]);
  });

  test('there is a walk for every way it can end', () => {
    const ends = new Set(walks.parse(source.value).map(({ ends }) => ends));
    const { main } = library.flows[flow]!.script;
    const fixes = main.some(step => step.kind === 'try' && step.fixed !== null);
    const handsOver = main.some(step => step.kind === 'hand-over');
    if (fixes) expect(ends).toContain('fixed');
    if (handsOver) expect(ends).toContain('escalated');
    for (const step of main) if (step.kind === 'end') expect(ends).toContain(step.how);
    const faults = new Set(walks.parse(source.value).flatMap(({ fault }) => fault ?? []));
    // A step that goes on when it worked ends nothing.
    // A step that this organisation's policies rule out has no walk here; the checker tries every policy.
    const { start } = library.flows[flow]!.script;
    const allowed = (step: Step) =>
      readsOf(step.if).every(
        ({ finding, values }) => !finding.startsWith('policy.') || values.includes(start[finding]!),
      );
    const fixable = main.flatMap(step =>
      step.kind === 'try' && step.fixed !== null && !step.after.fixed?.goes && allowed(step)
        ? [step.fixed]
        : [],
    );
    expect(fixable.filter(fault => !faults.has(fault))).toEqual([]);
  });
});
