/** The structured escalation, versioned. `reseat tickets show R-1001 --json` prints one; its JSON Schema is `reseat tickets schema`. */
import { z } from 'zod';

export const PRIORITIES = ['critical', 'high', 'medium', 'low'] as const;
export type Priority = (typeof PRIORITIES)[number];
export const STATUSES = ['open', 'taken', 'waiting', 'closed', 'merged'] as const;
export type TicketStatus = (typeof STATUSES)[number];

// Filled in by the ticket's own files; see below.
export type Ticket = Record<string, unknown>;
export type LifeEntry = { at: number; by: string; kind: string } & Record<string, unknown>;
export const ticket = z.record(z.string(), z.unknown());
