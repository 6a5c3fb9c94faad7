/** The page's own small drawings. Each is decoration: words always say the same beside it. */
import { trusted } from './html.ts';

const drawing = (inner: string, size = 24) =>
  trusted(
    `<svg class="mark" viewBox="0 0 ${size} ${size}" width="${size}" height="${size}" aria-hidden="true" focusable="false">${inner}</svg>`,
  );

const line = (d: string) =>
  `<path d="${d}" fill="none" stroke="currentColor" stroke-width="2.2" stroke-linecap="round" stroke-linejoin="round"/>`;

/** A module on its way into its slot. */
export const logo = drawing(
  '<path class="mark-slot" d="M4 17v9h24v-9" fill="none" stroke="currentColor" stroke-width="3.4" stroke-linecap="square"/><path class="mark-module" d="M9 3h14v17h-5v-3h-4v3H9z" fill="currentColor"/>',
  32,
);
export const careful = drawing(line('M12 4 2.8 20h18.4zM12 10v4.5M12 17.4v.1'));
export const yes = drawing(line('m4.5 12.5 5 5 10-11'));
export const no = drawing(line('m6 6 12 12M18 6 6 18'));
export const camera = drawing(
  `${line('M4 8h3.4L9 5.5h6L16.6 8H20a1 1 0 0 1 1 1v9a1 1 0 0 1-1 1H4a1 1 0 0 1-1-1V9a1 1 0 0 1 1-1z')}<circle cx="12" cy="13" r="3.4" fill="none" stroke="currentColor" stroke-width="2.2"/>`,
);
export const up = drawing(line('M12 19V5M6 11l6-6 6 6'));
export const tool = drawing(
  line(
    'M14.5 6.5a4 4 0 0 1 5-1l-2.7 2.7 1 1 2.7-2.7a4 4 0 0 1-5.4 5L8 18.6a2 2 0 0 1-2.8-2.8l7.1-7.1a4 4 0 0 1 2.2-2.2z',
  ),
);
