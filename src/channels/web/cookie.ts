/** Who is looking: a browser that holds an unguessable token. The chat is its hash, so that the database opens nothing. */
import {
  createCipheriv,
  createDecipheriv,
  createHash,
  createHmac,
  randomBytes,
  timingSafeEqual,
} from 'node:crypto';

export const newToken = (): string => randomBytes(32).toString('base64url');
const TOKEN = /^[A-Za-z0-9_-]{43}$/;

const digest = (text: string) => createHash('sha256').update(text).digest('base64url');
const keyed = (key: string, text: string) => createHmac('sha256', key).update(text).digest('base64url');

export const chatOf = (token: string): string => `web:${digest(token)}`;

/** Only the token's holder can know it; another site can make this browser send its cookie, but not this. */
export const csrfOf = (token: string): string => keyed(token, 'csrf');
export const csrfFits = (token: string, given: unknown): boolean => {
  const wanted = Buffer.from(csrfOf(token));
  const got = Buffer.from(typeof given === 'string' ? given : '');
  return wanted.length === got.length && timingSafeEqual(wanted, got);
};

/** With `secure` the name's prefix makes browsers refuse it from anywhere but this very host over TLS. */
export const cookieName = (secure: boolean): string => (secure ? '__Host-reseat' : 'reseat');

export function tokenIn(header: string | undefined, secure: boolean): string | null {
  const name = cookieName(secure);
  for (const pair of (header ?? '').split(';')) {
    const [key, value] = pair.trim().split('=');
    if (key === name && value !== undefined && TOKEN.test(value)) return value;
  }
  return null;
}

/** Browsers keep it 400 days at most; each visit begins them anew. */
const SECONDS = 400 * 24 * 3600;
export const cookieHeader = (token: string, secure: boolean): string =>
  `${cookieName(secure)}=${token}; Path=/; Max-Age=${SECONDS}; HttpOnly; SameSite=Lax${secure ? '; Secure' : ''}`;

/* A link to a chat: worked out anew from the token whenever its holder looks, kept only as a hash. */

export const linkSecret = (token: string, madeAt: number): string => keyed(token, `link:${madeAt}`);
export const linkHash = (secret: string): string => digest(`link:${secret}`);
export const isLinkSecret = (text: string): boolean => TOKEN.test(text);

/** The chat's token, to be opened with the link's secret alone. */
export function seal(secret: string, token: string): string {
  const nonce = randomBytes(12);
  const cipher = createCipheriv('aes-256-gcm', sealKey(secret), nonce);
  const sealed = Buffer.concat([cipher.update(token, 'utf8'), cipher.final()]);
  return Buffer.concat([nonce, cipher.getAuthTag(), sealed]).toString('base64url');
}

/** Null when it was not sealed with this secret. */
export function unseal(secret: string, sealed: string): string | null {
  const bytes = Buffer.from(sealed, 'base64url');
  try {
    const decipher = createDecipheriv('aes-256-gcm', sealKey(secret), bytes.subarray(0, 12));
    decipher.setAuthTag(bytes.subarray(12, 28));
    const token = Buffer.concat([decipher.update(bytes.subarray(28)), decipher.final()]).toString('utf8');
    return TOKEN.test(token) ? token : null;
  } catch {
    return null;
  }
}

const sealKey = (secret: string) => createHash('sha256').update(`seal:${secret}`).digest();
