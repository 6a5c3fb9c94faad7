/**
 * What a link can carry, in megabytes (10^6 bytes) a second: the rate of its standard, less what line coding and protocol take.
 *
 * USB 2.0: 480 Mbit/s; at most 13 packets of 512 bytes fit into 125 microseconds (Linux, Documentation/usb/ehci.rst), which is
 * 53.2; real drives reach 30 to 40 (common practice). USB 3: 5 Gbit/s in 8b/10b and 10 Gbit/s in 128b/132b, "up to 450 MB/s" and
 * "up to 1 GB/s" (USB 3.2 specification, introduction, in a copy). Serial ATA: 6 Gbit/s in 8b/10b, 600 MB/s (in copies), less 8%
 * (common practice). Ethernet: 1448 of 1538 bytes are data (frame, gap, IP and TCP headers with time stamps), as measured: 941 of
 * 1000 Mbit/s. Wi-Fi and remote access: common practice, no source.
 */
interface Link {
  MBps: number;
  /** Every file then costs a round trip or two. */
  network: boolean;
}

/** Bits a second to megabytes a second, when `share` of them are data. */
const carries = (gigabits: number, share: number): number => (gigabits * 1000 * share) / 8;
const ETHERNET = 1448 / 1538;

export const LINKS = {
  'usb-2': { MBps: carries(0.48, 0.58), network: false },
  'usb-3-5g': { MBps: carries(5, 0.8 * 0.9), network: false },
  'usb-3-10g': { MBps: carries(10, (128 / 132) * 0.9), network: false },
  'sata-6g': { MBps: carries(6, 0.8 * 0.92), network: false },
  'fast-ethernet': { MBps: carries(0.1, ETHERNET), network: true },
  'gigabit-ethernet': { MBps: carries(1, ETHERNET), network: true },
  '10-gigabit-ethernet': { MBps: carries(10, ETHERNET), network: true },
  'wi-fi': { MBps: carries(0.3, 0.5), network: true },
  'remote-access': { MBps: carries(0.05, 0.8), network: true },
} as const satisfies Record<string, Link>;

export const LINK_NAMES = Object.keys(LINKS) as [keyof typeof LINKS, ...(keyof typeof LINKS)[]];
