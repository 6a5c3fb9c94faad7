/** A date and a time as somebody's own clock shows them, as a moment. Pure. */

/** @param date 2026-11-25 @param time 09:30 @param zone IANA name; UTC unless given or known @returns epoch milliseconds; NaN when it is none */
export function momentOf(date: string, time: string, zone: string | null): number {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(date) || !/^\d{1,2}:\d{2}/.test(time)) return Number.NaN;
  const wall = Date.parse(`${date}T${time.slice(0, 5).padStart(5, '0')}:00Z`);
  if (Number.isNaN(wall)) return Number.NaN;
  // Twice, because the first guess may lie on the other side of a change of clocks.
  const guess = wall - offsetAt(wall, zone);
  return wall - offsetAt(guess, zone);
}

/** Milliseconds by which clocks there are ahead of UTC. */
function offsetAt(at: number, zone: string | null): number {
  const format = new Intl.DateTimeFormat('en-GB', {
    timeZone: knownZone(zone),
    hourCycle: 'h23',
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
    hour: '2-digit',
    minute: '2-digit',
    second: '2-digit',
  });
  const part = Object.fromEntries(format.formatToParts(at).map(({ type, value }) => [type, Number(value)]));
  const shown = Date.UTC(part.year!, part.month! - 1, part.day, part.hour, part.minute, part.second);
  return shown - Math.floor(at / 1000) * 1000;
}

export function knownZone(zone: string | null): string {
  try {
    return new Intl.DateTimeFormat('en-GB', { timeZone: zone ?? 'UTC' }).resolvedOptions().timeZone;
  } catch {
    return 'UTC';
  }
}
