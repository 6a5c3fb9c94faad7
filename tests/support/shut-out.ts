/** What on a page would shut people out, found by axe-core with all its rules on: WCAG A and AA, and good practice. */

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Found {
  violations: { id: string; help: string; nodes: { html: string; failureSummary: string }[] }[];
}

export async function shutsOut(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  const { violations } = await page.evaluate<Found>('axe.run(document, { resultTypes: ["violations"] })');
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map(node => `${id}: ${help}: ${node.html.slice(0, 160)}: ${node.failureSummary}`),
  );
}

/** Pixels by which the page is wider than its window. */
export const tooWide = (page: Page): Promise<number> =>
  page.evaluate<number>('document.documentElement.scrollWidth - document.documentElement.clientWidth');
