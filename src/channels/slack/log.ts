/** Slack's libraries write to our log: warnings and errors, never what they were sent. */
import type { LogLevel } from '@slack/bolt';

export type Log = (event: string, details: Record<string, unknown>) => void;

/** As much of the library's own logger as it uses. */
export interface BoltLog {
  debug(...said: unknown[]): void;
  info(...said: unknown[]): void;
  warn(...said: unknown[]): void;
  error(...said: unknown[]): void;
  setLevel(level: LogLevel): void;
  getLevel(): LogLevel;
  setName(name: string): void;
}

/** Long enough for a reason, too short for a payload. */
const MOST = 300;

export function boltLog(log: Log): BoltLog {
  const write =
    (level: 'warning' | 'error') =>
    (...said: unknown[]) =>
      log('slack-library', { level, said: said.map(String).join(' ').slice(0, MOST) });
  const nothing = () => undefined;
  return {
    debug: nothing,
    info: nothing,
    warn: write('warning'),
    error: write('error'),
    setLevel: nothing,
    getLevel: () => 'warn' as LogLevel,
    setName: nothing,
  };
}
