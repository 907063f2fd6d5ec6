/** Where the wall can be reached. */
import { networkInterfaces } from 'node:os';

/** By itself: only from this machine. */
export const LOOPBACK = ['127.0.0.1', 'localhost'] as const;

/** This machine's own IPv4 addresses in its networks, those of private networks first (RFC 1918). */
export function networkAddresses(): string[] {
  const all = Object.values(networkInterfaces())
    .flatMap((each) => each ?? [])
    .filter(({ family, internal }) => family === 'IPv4' && !internal)
    .map(({ address }) => address)
    // What a machine gives itself when nobody gives it an address leads nowhere.
    .filter((address) => !address.startsWith('169.254.'));
  return [...new Set(all)].sort((a, b) => Number(isPrivate(b)) - Number(isPrivate(a)));
}

export const isPrivate = (address: string): boolean => /^(10\.|192\.168\.|172\.(1[6-9]|2\d|3[01])\.)/.test(address);
