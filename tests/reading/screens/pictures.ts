/** Every screen in every kind of picture, each as it would be sent. The same every time. */
import { chanceOf, DAMAGE, type Picture } from './damage.ts';
import { draw } from './draw.ts';
import { NOTHING, SHOWN, type Shown } from './shown.ts';

export const KINDS = Object.keys(DAMAGE);
export const ALL: readonly Shown[] = [...SHOWN, ...NOTHING];

/** `at`: which screen. Every other one has the letters of old text screens. */
export async function picture(kind: string, at: number): Promise<{ shown: Shown; picture: Picture }> {
  const shown = ALL[at]!;
  const chance = chanceOf(at * 97 + KINDS.indexOf(kind) + 1);
  return { shown, picture: await DAMAGE[kind]!(draw(shown, at % 2 === 0), chance) };
}
