/** Gives the page its files under its own scheme. */
import type { Protocol } from 'electron';
import { PAGE_SCHEME } from './page-address.ts';
import type { servePageFiles } from './page-files.ts';

export function answerPageScheme(protocol: Protocol, serve: ReturnType<typeof servePageFiles>): void {
  // Its successor, `handle`, speaks in the web's Request and Response: at the first file that makes this process load an
  // HTTP client with HTTP/2, which holds the first picture back by a third of the time that the start takes.
  // eslint-disable-next-line @typescript-eslint/no-deprecated
  protocol.registerBufferProtocol(PAGE_SCHEME, (request, answer) => {
    serve(request).then(
      ({ status, headers, bytes }) => answer({ statusCode: status, headers: { ...headers }, data: bytes }),
      () => answer({ statusCode: 500, data: Buffer.alloc(0) }),
    );
  });
}
