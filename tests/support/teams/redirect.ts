/**
 * Loaded before `reseat serve` in a process of its own (`node --import`): requests of the SDK for its own tokens go to the
 * stand-in at TEAMS_STAND_IN instead of the internet, because the SDK takes no address without TLS for them. Nothing else is touched.
 */
import { lead } from './lead.ts';

const to = process.env.TEAMS_STAND_IN;
if (to === undefined) throw new Error('TEAMS_STAND_IN says where the stand-in is');
lead(to);
