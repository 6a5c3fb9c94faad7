/** Tokens as Teams' service signs them, with a key of our own, so that the SDK's real authentication decides. */
import { exportJWK, generateKeyPair, type JWK, SignJWT } from 'jose';

export const APP = '11111111-2222-4333-8444-555555555555';
export const TENANT = '66666666-7777-4888-8999-000000000000';
export const ISSUER = 'https://api.botframework.com';

export interface Keys {
  /** What the key metadata publishes. */
  published: (JWK & { endorsements?: string[] })[];
  /** Value of the header Authorization. Claims that are given as null are left out. */
  sign(claims: Claims): Promise<string>;
}

export interface Claims {
  iss?: string | null;
  aud?: string | null;
  serviceurl?: string | null;
  /** Seconds from now. */
  expires?: number;
  kid?: string;
}

export async function keys(kid = 'key-1', endorsements: string[] = ['msteams']): Promise<Keys> {
  const { privateKey, publicKey } = await generateKeyPair('RS256', { extractable: true });
  const jwk = { ...(await exportJWK(publicKey)), kid, use: 'sig', endorsements };
  return {
    published: [jwk],
    async sign({ iss = ISSUER, aud = APP, serviceurl = null, expires = 3600, kid: named = kid }) {
      const now = Math.floor(Date.now() / 1000);
      const payload = Object.fromEntries(
        Object.entries({
          iss,
          aud,
          serviceurl,
          nbf: Math.min(now, now + expires) - 60,
          exp: now + expires,
        }).filter(([, value]) => value !== null),
      );
      const token = await new SignJWT(payload)
        .setProtectedHeader({ alg: 'RS256', kid: named })
        .sign(privateKey);
      return `Bearer ${token}`;
    },
  };
}
