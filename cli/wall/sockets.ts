/** How many connections a single machine may hold: none keeps the others out. */
import type { Server } from 'node:http';
import type { Socket } from 'node:net';

/** Refuses those beyond; `refused` is told from where. */
export function limitEach(server: Server, most: number, refused: (address: string) => void): void {
  const held = new Map<string, number>();
  server.on('connection', (socket: Socket) => {
    const address = socket.remoteAddress ?? '?';
    const count = (held.get(address) ?? 0) + 1;
    held.set(address, count);
    socket.on('close', () => {
      const left = held.get(address)! - 1;
      if (left === 0) held.delete(address);
      else held.set(address, left);
    });
    if (count <= most) return;
    refused(address);
    socket.destroy();
  });
}
