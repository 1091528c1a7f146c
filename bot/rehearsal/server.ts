import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo, Socket } from 'node:net';

/** The HTTP side of the rehearsal. */
export type LoopbackServer = {
  url: string;
  /** While down, every connection is cut, those under way too. */
  down: (isDown: boolean) => void;
  stop: () => Promise<void>;
};

/** Where to listen: port 0 is any free one. */
export type Place = { host: string; port: number };

const LOOPBACK = /^(127(\.\d{1,3}){3}|::1|localhost)$/;

/** Starts listening; refuses any address that is not loopback, since the rehearsal trusts whoever calls. */
export async function listen(
  place: Place,
  answer: (incoming: IncomingMessage, outgoing: ServerResponse) => Promise<void>,
): Promise<LoopbackServer> {
  if (!LOOPBACK.test(place.host)) {
    throw new Error(`the rehearsal server listens on loopback only, not on ${place.host} (use 127.0.0.1)`);
  }
  const sockets = new Set<Socket>();
  let isDown = false;
  // callers keep connections open between calls: one closed for idleness could meet their next call half-way
  const server = createServer(
    { keepAliveTimeout: 0 },
    (incoming, outgoing) => void answer(incoming, outgoing),
  );
  server.on('connection', (socket) => {
    if (isDown) return void socket.destroy();
    sockets.add(socket);
    socket.on('close', () => sockets.delete(socket));
  });
  const cut = (): void => sockets.forEach((socket) => socket.destroy());
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(place.port, place.host, resolve);
  });
  const { address, port, family } = server.address() as AddressInfo;
  return {
    url: family === 'IPv6' ? `http://[${address}]:${port}` : `http://${address}:${port}`,
    down: (value) => {
      isDown = value;
      if (value) cut();
    },
    stop: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        cut();
      }),
  };
}
