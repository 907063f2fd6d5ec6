/** The wall's server: four addresses below each link, and nothing else; it never touches a file for a request. */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { clean } from '../../src/chart/text.js';
import type { Entry } from '../../src/live/journal/entries.js';
import { isRefusal } from '../../src/live/journal/names.js';
import { entryWords } from '../../src/live/journal/words.js';
import { wallDocument } from '../../src/wall/document.js';
import { itemsOf } from '../../src/wall/items.js';
import { WALL_POLICY, wallNews, wallPage } from '../../src/wall/page.js';
import type { Right } from '../../src/wall/rights.js';
import type { Seen } from '../../src/wall/sections.js';
import { entriesFor, tapShape } from '../../src/wall/tap.js';
import type { Desk } from '../cooking/desk.js';
import { UsageError } from '../exit.js';
import { bodyOf } from './body.js';
import { Followers, type News } from './followers.js';
import { type Link, rightOf } from './links.js';
import { Rate } from './rate.js';
import { limitEach } from './sockets.js';

export interface WallOptions {
  readonly links: readonly Link[];
  /** What it listens on, and by which names it may be asked for, without the port. */
  readonly bind: string;
  readonly hosts: readonly string[];
  readonly port: number;
  readonly rehearsal?: boolean;
  /** Milliseconds in which a request must have come to its end. */
  readonly patience?: number;
  /** One line about something that was noted, or was refused. */
  readonly noted: (line: string) => void;
  readonly refused: (line: string) => void;
}

export interface Wall {
  readonly port: number;
  readonly followers: () => number;
  readonly close: () => Promise<void>;
}

const MOST_FOLLOWERS = 600;
const MOST_CONNECTIONS = 1000;
/** Of one machine. */
const MOST_EACH = 400;
/** Milliseconds between two signs of life, and between two looks at the clock. */
const BEAT = 5000;
const LOOK = 500;
const PATIENCE = 8000;

const HEADERS = {
  'content-security-policy': WALL_POLICY,
  'x-content-type-options': 'nosniff',
  'x-frame-options': 'DENY',
  'referrer-policy': 'no-referrer',
  'cross-origin-resource-policy': 'same-origin',
  'cross-origin-opener-policy': 'same-origin',
  'cache-control': 'no-store',
} as const;

const PATH = /^\/([A-Za-z0-9_-]{1,64})\/(events|state|mark|)$/;

export async function serveWall(desk: Desk, options: WallOptions): Promise<Wall> {
  const { patience = PATIENCE, rehearsal = false } = options;
  let seen: Seen | null = null;
  const see = (): Seen => {
    const [day, state, inForce] = [desk.day(), desk.state(), desk.inForce()];
    const closed = desk.closed() ?? (day.plan === null ? 'The journal has no plan any more.' : null);
    if (seen === null || seen.state !== state || seen.closed !== closed)
      seen = { day, state, inForce, items: itemsOf(day, state, inForce), closed, rehearsal };
    return seen;
  };
  let told = new Map<Right, News>();
  let toldOf: Seen | null = null;
  /** The same thing for all who have a right, until something has changed. */
  const newsFor = (right: Right): News => {
    const now = see();
    if (now !== toldOf) [told, toldOf] = [new Map(), now];
    const news = told.get(right) ?? wallNews(now, right);
    told.set(right, news);
    return news;
  };
  const followers = new Followers(newsFor);
  const rate = new Rate();
  const server = createServer(
    {
      maxHeaderSize: 8192,
      headersTimeout: patience,
      requestTimeout: patience,
      connectionsCheckingInterval: patience / 8,
      // What names no host is refused like what names another's, and told.
      requireHostHeader: false,
    },
    (request, reply) => {
      answer(request, reply).catch((error: unknown) => {
        options.refused(`${from(request)}  a fault of ours: ${clean(String(error)).slice(0, 200)}`);
        if (reply.headersSent) reply.destroy();
        else json(reply, 500, { say: 'Something went wrong here.', hint: null });
      });
    },
  );
  server.maxConnections = MOST_CONNECTIONS;
  limitEach(server, MOST_EACH, (address) => options.refused(`${address}  too many connections`));
  server.keepAliveTimeout = 5000;
  server.on('clientError', (error: NodeJS.ErrnoException, socket) => {
    options.refused(
      `${clean((socket as { remoteAddress?: string }).remoteAddress ?? '?')}  not understood (${clean(error.code ?? '')})`,
    );
    const status = error.code === 'ERR_HTTP_REQUEST_TIMEOUT' ? '408 Request Timeout' : '400 Bad Request';
    // What is half open would stay so for as long as the other side sends.
    if (socket.writable) socket.end(`HTTP/1.1 ${status}\r\nConnection: close\r\n\r\n`, () => socket.destroy());
    else socket.destroy();
  });

  const refuse = (
    request: IncomingMessage,
    reply: ServerResponse,
    status: number,
    say: string,
    hint: string | null = null,
  ): void => {
    options.refused(`${from(request)}  ${clean(request.method ?? '')} refused (${status}): ${clean(say)}`);
    // What was not read to its end is not waited for.
    if (!request.complete) reply.setHeader('connection', 'close');
    json(reply, status, { say, hint });
    if (!request.complete) request.resume().setTimeout(2000, () => request.destroy());
  };

  async function answer(request: IncomingMessage, reply: ServerResponse): Promise<void> {
    if (!isAskedFor(request)) return refuse(request, reply, 421, 'This address is not one of the wall’s.');
    const path = PATH.exec(request.url ?? '');
    if (path === null) return refuse(request, reply, 404, 'There is nothing here.');
    const right = rightOf(options.links, path[1]!);
    if (right === null)
      return refuse(request, reply, 403, 'This link does not hold, or no longer.', 'ask for a new one');
    const what = path[2] as 'events' | 'state' | 'mark' | '';
    const method = what === 'mark' ? 'POST' : 'GET';
    if (request.method !== method) {
      reply.setHeader('allow', method);
      return refuse(request, reply, 405, `Only ${method} is understood here.`);
    }
    if (isFromElsewhere(request)) return refuse(request, reply, 403, 'Another page may not ask this.');
    if (method === 'GET' && hasBody(request)) return refuse(request, reply, 413, 'Nothing is sent along with this.');
    switch (what) {
      case '':
        reply.writeHead(200, { ...HEADERS, 'content-type': 'text/html; charset=utf-8' });
        reply.end(wallPage(see(), right));
        return;
      case 'state':
        return json(reply, 200, wallDocument(see(), right));
      case 'events':
        if (followers.count >= MOST_FOLLOWERS) return refuse(request, reply, 503, 'Too many look at the wall.');
        reply.writeHead(200, { ...HEADERS, 'content-type': 'text/event-stream', 'x-accel-buffering': 'no' });
        request.socket.setKeepAlive(true, 10_000);
        followers.add(reply, right);
        return;
      case 'mark':
        return mark(request, reply, right);
    }
  }

  async function mark(request: IncomingMessage, reply: ServerResponse, right: Right): Promise<void> {
    if (!/^application\/json\s*(;|$)/i.test(request.headers['content-type'] ?? ''))
      return refuse(request, reply, 415, 'A tap is sent as JSON.');
    if (!rate.allows(right, Date.now())) return refuse(request, reply, 429, 'Too many taps at once.', 'wait a little');
    const body = await bodyOf(request);
    if (body === 'too long') return refuse(request, reply, 413, 'That is too long for a tap.');
    if (body === 'broken off') return void reply.destroy();
    const tap = tapShape.safeParse(body);
    if (!tap.success) return refuse(request, reply, 400, 'That is no tap.');
    const { day, inForce, items, closed } = see();
    if (closed !== null) return refuse(request, reply, 409, closed);
    const bodies = entriesFor(day, inForce, items, right, tap.data);
    if ('say' in bodies) return refuse(request, reply, bodies.forbidden ? 403 : 409, bodies.say, bodies.hint);
    const made = bodies.length === 0 ? [] : desk.note(bodies, 0, right.who);
    if (isRefusal(made)) return refuse(request, reply, 409, made.say, made.hint);
    for (const entry of made) options.noted(clean(wordsOf(entry)));
    json(reply, 200, { noted: made.map(({ seq }) => seq) });
  }

  const wordsOf = (entry: Entry): string => entryWords(desk.day().problem, entry);

  let port = options.port;
  /** The name in the request is one of ours: a page elsewhere cannot make its own name mean this machine. */
  const isAskedFor = ({ headers: { host } }: IncomingMessage): boolean =>
    options.hosts.some((name) => host === `${name}:${port}` || (port === 80 && host === name));

  await listening(server, options);
  port = (server.address() as AddressInfo).port;
  let shown = see();
  const stop = desk.listen(() => followers.tellAll());
  const looks = setInterval(() => {
    const now = see();
    if (now === shown) return;
    shown = now;
    followers.tellAll();
  }, LOOK);
  const beats = setInterval(() => followers.beat(Date.now()), BEAT);
  return {
    port,
    followers: () => followers.count,
    close: () => {
      stop();
      clearInterval(looks);
      clearInterval(beats);
      followers.end();
      return new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      });
    },
  };
}

const from = ({ socket }: IncomingMessage): string => socket.remoteAddress ?? '?';

/** Browsers say which page asks: only ours may. Other programs say nothing. */
function isFromElsewhere({ method, headers }: IncomingMessage): boolean {
  const { origin, host } = headers;
  const site = headers['sec-fetch-site'];
  if (origin !== undefined && origin !== `http://${host}`) return true;
  // `none`: typed, or scanned with a phone; a link in a message comes from another site, and only opens the page.
  const isLink = method === 'GET' && headers['sec-fetch-mode'] === 'navigate';
  return site !== undefined && site !== 'same-origin' && site !== 'none' && !isLink;
}

const hasBody = ({ headers }: IncomingMessage): boolean =>
  headers['transfer-encoding'] !== undefined || Number(headers['content-length'] ?? 0) !== 0;

function json(reply: ServerResponse, status: number, data: unknown): void {
  reply.writeHead(status, { ...HEADERS, 'content-type': 'application/json; charset=utf-8' });
  reply.end(`${JSON.stringify(data)}\n`);
}

function listening(server: Server, { port, bind }: WallOptions): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => {
      const busy = error.code === 'EADDRINUSE';
      const say = busy
        ? `Something else listens on port ${port} already.`
        : `Port ${port} cannot be listened on (${error.code}).`;
      reject(new UsageError(`${say}\nPerhaps: --port ${port >= 65535 || port < 1024 ? 4331 : port + 1}`));
    });
    server.listen(port, bind, () => resolve());
  });
}
