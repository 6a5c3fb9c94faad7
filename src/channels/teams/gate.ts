/** What is turned away before the SDK looks at it: the SDK crashes on some of it and lets the rest through. */
import { incomingOf, tenantsOf } from './incoming.ts';
import { isService, type TeamsSettings } from './settings.ts';

export interface Refusal {
  status: 400 | 401 | 403;
  /** For the log: names what is wrong and nothing that was sent. */
  why: string;
}

/** Null: it may go on to authentication. */
export function refusal(
  body: unknown,
  authorization: string | undefined,
  settings: TeamsSettings,
): Refusal | null {
  const activity = incomingOf(body, 0);
  if (activity === null) return { status: 400, why: 'not an activity of Teams' };
  if (authorization === undefined || !authorization.startsWith('Bearer '))
    return { status: 401, why: 'no token' };
  // Without a service address the SDK would skip the comparison with the token's, and answer to an address of its own.
  if (!isService(activity.reference.serviceUrl, settings))
    return { status: 403, why: 'a service address that is not known to be of Teams' };
  const tenants = tenantsOf(body);
  if (tenants.length === 0) return { status: 403, why: 'no tenant' };
  if (settings.tenant !== null && tenants.some(tenant => tenant !== settings.tenant))
    return { status: 403, why: 'another tenant' };
  return null;
}
