/** `reseat draw`: a flow or a block as a picture on one screen. Loaded only when it is asked for: the layout library is large. */
import { existsSync, statSync, writeFileSync } from 'node:fs';
import { dirname, extname } from 'node:path';
import { draw as drawSvg } from '#drawing/draw.ts';
import { type Subject, subjectOf, type Written } from '#drawing/written.ts';
import { fromSite, siteAnswers } from '#engine/listed.ts';
import type { FlowStep } from '#engine/schema.ts';
import { type Library, mistakeText } from '#library/load.ts';
import { UserError } from '../errors.ts';
import { measureWithFont, pngOf } from './picture.ts';
import type { Shell } from './wired.ts';

/** Twice the screen, so that it is sharp on paper too. */
const PNG_WIDTH = 2880;

/** `out`: a file that ends with .svg or .png; without it the SVG goes to standard output. `width`: of the PNG, in px. */
export async function draw(
  shell: Shell,
  name: string,
  { out, width }: { out?: string; width?: number },
): Promise<void> {
  const kind = kindOf(out, width);
  const { library, mistakes } = await shell.load();
  if (library === null || mistakes.length > 0) throw new UserError(mistakes.map(mistakeText).join('\n'));
  const written = writtenOf(library);
  const svg = await drawSvg(subjectNamed(name, written), written, measureWithFont());
  if (out === undefined) {
    shell.output.write(`${svg}\n`);
    return;
  }
  try {
    writeFileSync(out, kind === 'png' ? pngOf(svg, width ?? PNG_WIDTH) : `${svg}\n`);
  } catch (error) {
    throw new UserError(`${out} cannot be written: ${(error as Error).message}.`);
  }
}

function kindOf(out: string | undefined, width: number | undefined): 'svg' | 'png' {
  const ending = out === undefined ? '.svg' : extname(out).toLowerCase();
  if (ending !== '.svg' && ending !== '.png') {
    throw new UserError(`--out takes a file that ends with .svg or .png; ${out} does not.`);
  }
  if (ending === '.svg' && width !== undefined) {
    throw new UserError('--width is for a .png; an SVG has no size of its own on a screen.');
  }
  const folder = dirname(out ?? '.');
  if (!existsSync(folder) || !statSync(folder).isDirectory()) {
    throw new UserError(`There is no folder ${folder} to write into. Make it first, or name another.`);
  }
  return ending === '.svg' ? 'svg' : 'png';
}

/** A flow, or else a block; `blocks/NAME` is always the block. */
function subjectNamed(name: string, written: Written): Subject {
  const block = name.replace(/^blocks\//, '');
  const found =
    (name === block ? subjectOf(written, 'flow', name) : null) ?? subjectOf(written, 'block', block);
  if (found !== null) return found;
  const [flows, blocks] = [written.flows, written.blocks].map(each => Object.keys(each).join(', '));
  throw new UserError(`There is no flow or block "${name}". Flows: ${flows}. Blocks: ${blocks}.`);
}

export function writtenOf({ catalogue, site, flows, blocks }: Library): Written {
  const each = <From, To>(of: Record<string, From>, to: (from: From) => To): Record<string, To> =>
    Object.fromEntries(Object.entries(of).map(([id, from]) => [id, to(from)]));
  /** A question for one of the organisation's shares, with its answers as they are asked. */
  const withShares = (step: FlowStep): FlowStep => {
    if (!('ask' in step) || step.answers_from !== 'shares') return step;
    const { answers_from: _, ...asked } = fromSite(step, site, () => {});
    return asked;
  };
  return {
    flows: each(flows, ({ written }) => ({ ...written, steps: written.steps.map(withShares) })),
    blocks: each(blocks, block => ({ ...block, steps: block.steps.map(withShares) })),
    sites: siteAnswers(site).map(([id, label]) => ({ id, label })),
    faults: each(catalogue.faults, ({ name }) => name),
    cautions: each(catalogue.cautions, ({ text }) => text),
    policies: each(catalogue.policies, ({ values }) => values),
  };
}
