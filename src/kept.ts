/** Where things are kept between starts that can be made again at any time: beside the packages. */
import { join } from 'node:path';

export const ROOT = join(import.meta.dirname, '..');
export const KEPT = join(ROOT, 'node_modules', '.cache', 'reseat');
