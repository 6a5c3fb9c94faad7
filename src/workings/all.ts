/** All workings, in the order in which they are listed. A test compares this with the folders. */
import { array } from './array/index.ts';
import { bootOrder } from './boot-order/index.ts';
import { copyTime } from './copy-time/index.ts';
import { health } from './health/index.ts';
import { iops } from './iops/index.ts';
import { outage } from './outage/index.ts';
import { plan } from './plan/index.ts';
import { power } from './power/index.ts';
import { rates } from './rates/index.ts';
import type { Working } from './working.ts';

export const WORKINGS: readonly Working[] = [
  array,
  bootOrder,
  copyTime,
  health,
  iops,
  outage,
  plan,
  power,
  rates,
];

export const workingNamed = (id: string): Working | undefined => WORKINGS.find(working => working.id === id);
