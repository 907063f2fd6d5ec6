/** Connections of one machine: so many and no more. */
import { createServer } from 'node:http';
import { type AddressInfo, connect, type Socket } from 'node:net';
import { describe, expect, it } from 'vitest';
import { limitEach } from '../../cli/wall/sockets.js';

describe('connections of one machine', () => {
  it('are refused beyond so many, until some are closed', async () => {
    const server = createServer();
    const refused: string[] = [];
    limitEach(server, 3, (address) => refused.push(address));
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    const { port } = server.address() as AddressInfo;
    const gone = new Set<Socket>();
    const open = (host: string): Socket => {
      const socket = connect({ port, host: '127.0.0.1', localAddress: host });
      socket.on('close', () => gone.add(socket)).on('error', () => {});
      return socket;
    };
    const first = Array.from({ length: 5 }, () => open('127.0.0.1'));
    await expect.poll(() => gone.size).toBe(2);
    expect(refused).toEqual(['127.0.0.1', '127.0.0.1']);
    const held = first.filter((socket) => !gone.has(socket));
    expect(held).toHaveLength(3);
    // Another machine has its own; on this one, by another of its addresses where it has one.
    if (process.platform === 'linux') {
      const other = open('127.0.0.2');
      await expect.poll(() => other.readyState).toBe('open');
      other.destroy();
    }
    held[0]!.destroy();
    await expect.poll(() => connections(server)).toBe(2);
    const again = open('127.0.0.1');
    await expect.poll(() => connections(server)).toBe(3);
    expect(gone.has(again)).toBe(false);
    expect(refused).toHaveLength(2);
    for (const socket of [...held, again]) socket.destroy();
    await new Promise((resolve) => server.close(resolve));
  });
});

const connections = (server: ReturnType<typeof createServer>): Promise<number> =>
  new Promise((resolve, reject) => {
    server.getConnections((error, count) => (error ? reject(error) : resolve(count)));
  });
