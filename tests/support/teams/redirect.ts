/**
 * Loaded before `reseat serve` in a process of its own (`node --import`): requests of the SDK for keys and for its own tokens go to the
 * stand-in at TEAMS_STAND_IN instead of the internet. Nothing else is touched, and its settings are the real ones.
 */
import { lead } from './lead.ts';

const to = process.env.TEAMS_STAND_IN;
if (to === undefined) throw new Error('TEAMS_STAND_IN says where the stand-in is');
lead(to);
