/** The body of a request as JSON, and no more of it than a tap can have. */
import type { IncomingMessage } from 'node:http';

const MOST = 4096;

/** `undefined`: it is no JSON. */
export function bodyOf(request: IncomingMessage): Promise<unknown> {
  if (Number(request.headers['content-length'] ?? 0) > MOST) return Promise.resolve('too long');
  return new Promise((resolve) => {
    const parts: Buffer[] = [];
    let size = 0;
    request.on('data', (part: Buffer) => {
      size += part.length;
      if (size <= MOST) parts.push(part);
      else resolve('too long');
    });
    request.on('end', () => resolve(parsed(Buffer.concat(parts).toString('utf8'))));
    request.on('close', () => resolve('broken off'));
    request.on('error', () => resolve('broken off'));
  });
}

function parsed(text: string): unknown {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'object' ? value : undefined;
  } catch {
    return undefined;
  }
}
