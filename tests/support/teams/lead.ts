import nock from 'nock';

/** Leads the SDK's requests for its own tokens to the stand-in at `url`; everything else stays what it is, but for the internet. */
export function lead(url: string): void {
  const base = new URL(url).origin;
  nock.disableNetConnect();
  nock.enableNetConnect(/^(127\.0\.0\.1|localhost)/);
  const through = async (request: Request): Promise<[number, string, Record<string, string>]> => {
    const { pathname } = new URL(request.url);
    const body = request.method === 'GET' ? undefined : await request.text();
    const response = await fetch(`${base}${pathname}`, { method: request.method, body });
    return [response.status, await response.text(), { 'content-type': 'application/json' }];
  };
  nock.cleanAll();
  nock('https://login.microsoftonline.com')
    .persist()
    .post(/\/oauth2\/v2\.0\/token/)
    .reply(through);
}
