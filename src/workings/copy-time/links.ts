/**
 * What a link can carry, in megabytes (10^6 bytes) a second: the rate of its standard, less what line coding and protocol
 * take. Sources: USB 2.0 specification (480 Mbit/s signalling), USB 3.2 specification (5 and 10 Gbit/s; 8b/10b and 128b/132b
 * coding), IEEE 802.3 (100 Mbit/s, 1 and 10 Gbit/s), Serial ATA (6 Gbit/s, 8b/10b); all from memory. Wi-Fi and remote access:
 * common practice, no source.
 */
interface Link {
  MBps: number;
  /** Every file then costs a round trip or two. */
  network: boolean;
}

/** Bits a second to megabytes a second, when `share` of them are data. */
const carries = (gigabits: number, share: number): number => (gigabits * 1000 * share) / 8;

export const LINKS = {
  'usb-2': { MBps: carries(0.48, 0.58), network: false },
  'usb-3-5g': { MBps: carries(5, 0.8 * 0.9), network: false },
  'usb-3-10g': { MBps: carries(10, (128 / 132) * 0.9), network: false },
  'sata-6g': { MBps: carries(6, 0.8 * 0.92), network: false },
  'fast-ethernet': { MBps: carries(0.1, 0.94), network: true },
  'gigabit-ethernet': { MBps: carries(1, 0.94), network: true },
  '10-gigabit-ethernet': { MBps: carries(10, 0.94), network: true },
  'wi-fi': { MBps: carries(0.3, 0.5), network: true },
  'remote-access': { MBps: carries(0.05, 0.8), network: true },
} as const satisfies Record<string, Link>;

export const LINK_NAMES = Object.keys(LINKS) as [keyof typeof LINKS, ...(keyof typeof LINKS)[]];
