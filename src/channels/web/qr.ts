/** An address as a square to scan (ISO/IEC 18004), drawn here: nothing is sent anywhere. */
import { encode } from 'uqr';

export interface QrSquares {
  /** Squares along one side, the quiet border of four included. */
  size: number;
  /** SVG path of the dark ones. */
  path: string;
}

export function qrOf(address: string): QrSquares {
  const { data, size } = encode(address, { ecc: 'M', border: 4 });
  const path = data.flatMap((row, y) => row.map((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : ''))).join('');
  return { size, path };
}
