/** What happens to a screen on its way into a picture. Every kind takes its chance from the number given, so it is the same every time. */
import sharp, { type Sharp } from 'sharp';

export interface Picture {
  type: 'image/png' | 'image/jpeg' | 'image/webp';
  content: Uint8Array;
}
/** A number from 0 to 1, the next one at every call. */
type Chance = () => number;

export function chanceOf(start: number): Chance {
  let state = (start * 2654435761) >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

interface Raw {
  data: Uint8Array;
  width: number;
  height: number;
}
const between = (chance: Chance, low: number, high: number) => low + (high - low) * chance();
const sign = (chance: Chance) => (chance() < 0.5 ? -1 : 1);

const rawOf = async (image: Sharp): Promise<Raw> => {
  const { data, info } = await image.removeAlpha().raw().toBuffer({ resolveWithObject: true });
  return { data, width: info.width, height: info.height };
};
const imageOf = ({ data, width, height }: Raw) => sharp(data, { raw: { width, height, channels: 3 } });
const jpeg = async (image: Sharp, quality: number): Promise<Picture> => ({
  type: 'image/jpeg',
  content: await image.jpeg({ quality }).toBuffer(),
});

/** Every pixel anew, from its channel's value and place. */
function each(raw: Raw, change: (value: number, x: number, y: number, channel: number) => number): Raw {
  const data = new Uint8Array(raw.data.length);
  for (let at = 0; at < data.length; at++) {
    const pixel = Math.floor(at / 3);
    const value = change(raw.data[at]!, pixel % raw.width, Math.floor(pixel / raw.width), at % 3);
    data[at] = Math.max(0, Math.min(255, Math.round(value)));
  }
  return { ...raw, data };
}

/** The screen stands before a wall, and the phone is held at an angle: its four corners move, each its own way. */
function perspective(raw: Raw, chance: Chance, most: number): Raw {
  const { width, height } = raw;
  const [w, h] = [Math.round(width * 1.1), Math.round(height * 1.15)];
  const inset = () => between(chance, 0.02, 0.05 + most);
  const corners = [
    [w * inset(), h * inset()],
    [w * (1 - inset()), h * inset()],
    [w * (1 - inset()), h * (1 - inset())],
    [w * inset(), h * (1 - inset())],
  ] as const;
  const map = homography(corners, [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ]);
  const data = new Uint8Array(w * h * 3).fill(96);
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++) {
      const [u, v] = map(x, y);
      if (u < 0 || v < 0 || u >= width - 1 || v >= height - 1) continue;
      const [left, top] = [Math.floor(u), Math.floor(v)];
      const [fx, fy] = [u - left, v - top];
      for (let channel = 0; channel < 3; channel++) {
        const at = (dx: number, dy: number) => raw.data[((top + dy) * width + left + dx) * 3 + channel]!;
        data[(y * w + x) * 3 + channel] =
          at(0, 0) * (1 - fx) * (1 - fy) +
          at(1, 0) * fx * (1 - fy) +
          at(0, 1) * (1 - fx) * fy +
          at(1, 1) * fx * fy;
      }
    }
  return { data, width: w, height: h };
}

type Point = readonly [number, number];

/** The map that takes four corners to four others: eight equations, by elimination. */
function homography(from: readonly Point[], to: readonly Point[]): (x: number, y: number) => Point {
  const rows = from.flatMap(([x, y], at) => {
    const [u, v] = to[at]!;
    return [
      [x, y, 1, 0, 0, 0, -u * x, -u * y, u],
      [0, 0, 0, x, y, 1, -v * x, -v * y, v],
    ];
  });
  for (let column = 0; column < 8; column++) {
    const pivot = rows
      .slice(column)
      .reduce((best, row) => (Math.abs(row[column]!) > Math.abs(best[column]!) ? row : best));
    rows.splice(rows.indexOf(pivot), 1);
    rows.splice(column, 0, pivot);
    for (const row of rows) {
      if (row === pivot) continue;
      const share = row[column]! / pivot[column]!;
      for (let at = column; at < 9; at++) row[at] = row[at]! - share * pivot[at]!;
    }
  }
  const [a, b, c, d, e, f, g, h] = rows.map((row, at) => row[8]! / row[at]!) as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  return (x, y) => {
    const depth = g * x + h * y + 1;
    return [(a * x + b * y + c) / depth, (d * x + e * y + f) / depth];
  };
}

const noisy = (raw: Raw, chance: Chance, much: number) =>
  each(raw, value => value + (chance() + chance() - 1) * much);

/** The grid of the screen's own dots against the grid of the camera's. */
const moire = (raw: Raw, chance: Chance, much: number) => {
  const [a, b] = [between(chance, 2.1, 2.9), between(chance, 2.1, 2.9)];
  const turn = between(chance, -0.2, 0.2);
  return each(raw, (value, x, y, channel) => {
    const wave =
      Math.sin(((x + y * turn) * Math.PI) / a + channel) * Math.sin(((y - x * turn) * Math.PI) / b);
    const beat = Math.sin((x * 0.9 + y * turn * 3) / 19 + channel * 2);
    return value * (1 + much * wave) + much * 60 * beat;
  });
};

/** A lamp or a window in the glass. */
const glare = (raw: Raw, chance: Chance) => {
  const [cx, cy] = [raw.width * between(chance, 0.05, 0.6), raw.height * between(chance, 0.05, 0.4)];
  const size = raw.width * between(chance, 0.12, 0.22);
  const light = between(chance, 120, 190);
  return each(
    raw,
    (value, x, y) => value + light * Math.exp(-((x - cx) ** 2 + ((y - cy) * 1.3) ** 2) / (2 * size * size)),
  );
};

const dark = (raw: Raw, chance: Chance) => {
  const share = between(chance, 0.12, 0.3);
  return noisy(
    each(raw, value => value * share + 4),
    chance,
    10,
  );
};

const turned = (image: Sharp, degrees: number) => image.rotate(degrees, { background: '#606060' });
const photo = async (png: Buffer, chance: Chance): Promise<Picture> => {
  const bent = perspective(await rawOf(sharp(png)), chance, 0.06);
  const lit = noisy(
    each(bent, value => value * 0.75 + 18),
    chance,
    14,
  );
  const rolled = turned(imageOf(lit), sign(chance) * between(chance, 0.5, 3));
  return jpeg(
    sharp(await rolled.png().toBuffer())
      .resize(2400)
      .blur(1.6),
    70,
  );
};

/** The screen fills half of the picture: a letter is some twelve pixels high. */
const far = async (png: Buffer, chance: Chance): Promise<Picture> => {
  const bent = perspective(await rawOf(sharp(png).resize(860)), chance, 0.03);
  const [top, left] = [Math.round(between(chance, 60, 300)), Math.round(between(chance, 60, 500))];
  const room = imageOf(noisy(bent, chance, 10)).extend({
    top,
    bottom: 400 - top,
    left,
    right: 600 - left,
    background: '#8a8378',
  });
  return jpeg(room, 75);
};

/** The hand moved a little while the picture was taken. */
const shaken = async (png: Buffer, chance: Chance): Promise<Picture> => {
  const raw = await rawOf(sharp(png));
  const steps = 3 + Math.floor(chance() * 3);
  const [dx, dy] = [sign(chance), chance() < 0.5 ? 0 : 1];
  const at = (x: number, y: number, channel: number) =>
    raw.data[
      (Math.max(0, Math.min(raw.height - 1, y)) * raw.width + Math.max(0, Math.min(raw.width - 1, x))) * 3 +
        channel
    ]!;
  const moved = each(raw, (_, x, y, channel) => {
    let sum = 0;
    for (let step = 0; step < steps; step++) sum += at(x + step * dx, y + step * dy, channel);
    return sum / steps;
  });
  return jpeg(imageOf(noisy(moved, chance, 8)), 80);
};

/** How the picture comes about: a screen as PNG in, a file as a person would send it out. */
export const DAMAGE: Record<string, (png: Buffer, chance: Chance) => Promise<Picture>> = {
  plain: async png => ({ type: 'image/png', content: png }),
  small: async png => jpeg(sharp(png).resize(800), 60),
  rotated: async (png, chance) => jpeg(turned(sharp(png), sign(chance) * between(chance, 2, 12)), 80),
  sideways: async png => ({
    type: 'image/jpeg',
    content: await sharp(png).rotate(270).withMetadata({ orientation: 6 }).jpeg({ quality: 85 }).toBuffer(),
  }),
  blurred: async (png, chance) => jpeg(sharp(png).blur(between(chance, 1.2, 2.4)), 80),
  dark: async (png, chance) => jpeg(imageOf(dark(await rawOf(sharp(png)), chance)), 80),
  moire: async (png, chance) =>
    jpeg(imageOf(moire(await rawOf(sharp(png)), chance, between(chance, 0.25, 0.5))), 80),
  glare: async (png, chance) => jpeg(imageOf(glare(await rawOf(sharp(png)), chance)), 80),
  perspective: async (png, chance) => jpeg(imageOf(perspective(await rawOf(sharp(png)), chance, 0.12)), 80),
  far,
  shaken,
  photo,
};
