/** Opening the port, and closing it without cutting anybody off. */
import { createServer, type RequestListener } from 'node:http';
import type { AddressInfo } from 'node:net';
import { UserError } from '#errors.ts';

export interface Listening {
  port: number;
  /** Takes no new connections, lets what has begun end for at most `patience` milliseconds, then closes the rest. */
  close(patience: number): Promise<void>;
}

const WHY: Record<string, string> = {
  EADDRINUSE: 'something else listens there already; stop it, or set PORT to another number',
  EACCES: 'this user may not listen there; set PORT to a number above 1023',
  EADDRNOTAVAIL: 'this machine has no such address; set HOST to one it has, or to 0.0.0.0',
  ENOTFOUND: 'there is no such name; set HOST to an address of this machine',
};

export async function listen(handler: RequestListener, host: string, port: number): Promise<Listening> {
  const server = createServer(handler);
  // A picture over a slow line takes a while; headers do not.
  server.headersTimeout = 20_000;
  server.requestTimeout = 120_000;
  await new Promise<void>((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => {
      const why = WHY[error.code ?? ''];
      reject(why === undefined ? error : new UserError(`Cannot listen on ${host}:${port}: ${why}.`));
    });
    server.listen(port, host, resolve);
  });
  return {
    port: (server.address() as AddressInfo).port,
    close: patience =>
      new Promise(resolve => {
        const last = setTimeout(() => server.closeAllConnections(), patience);
        server.close(() => {
          clearTimeout(last);
          resolve();
        });
        server.closeIdleConnections();
      }),
  };
}
