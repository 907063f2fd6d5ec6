/** Those who have the wall open: each gets the newest state, and whoever is slow skips what has been overtaken. */
import type { ServerResponse } from 'node:http';
import type { Right } from '../../src/wall/rights.js';

/** What stands in each section. */
export type News = Readonly<Record<string, string>>;

interface Follower {
  readonly reply: ServerResponse;
  readonly right: Right;
  /** Instant since which it has not taken what was sent; null while it keeps up. */
  behind: number | null;
  /** It has news to come once it takes more. */
  owed: boolean;
  /** What it was sent last; the same thing for all who are as far. */
  last: News | null;
}

/** Milliseconds for which a phone may take nothing before it is let go; it asks again by itself. */
const PATIENCE = 20_000;

export class Followers {
  private readonly all = new Set<Follower>();

  /** @param news what whoever has this right is to see now. */
  constructor(private readonly news: (right: Right) => News) {}

  get count(): number {
    return this.all.size;
  }

  add(reply: ServerResponse, right: Right): void {
    const follower: Follower = { reply, right, behind: null, owed: false, last: null };
    this.all.add(follower);
    reply.on('close', () => this.all.delete(follower));
    reply.on('error', () => this.all.delete(follower));
    reply.on('drain', () => {
      follower.behind = null;
      if (follower.owed) this.tell(follower, this.news(right));
    });
    reply.write('retry: 1500\n\n');
    this.tell(follower, this.news(right));
  }

  /** To everybody; what is reckoned once for a right, and what is new since the last time, goes to all who have it. */
  tellAll(): void {
    const known = new Map<Right, News>();
    const texts = new Map<News, string | null>();
    for (const follower of this.all) {
      const { right } = follower;
      const news = known.get(right) ?? this.news(right);
      known.set(right, news);
      this.tell(follower, news, texts);
    }
  }

  /** A sign of life, so that a page knows that it is up to date; whoever takes nothing is let go. */
  beat(now: number): void {
    for (const follower of this.all) {
      if (follower.behind === null) this.send(follower, 'event: beat\ndata: \n\n', now);
      else if (now - follower.behind > PATIENCE) follower.reply.destroy();
    }
  }

  end(): void {
    for (const { reply } of this.all) reply.end();
  }

  private tell(follower: Follower, news: News, texts = new Map<News, string | null>()): void {
    follower.owed = follower.behind !== null;
    if (follower.owed) return;
    const { last } = follower;
    const text = last !== null && texts.has(last) ? texts.get(last)! : changed(last, news);
    // Whoever was sent nothing yet may have any right.
    if (last !== null) texts.set(last, text);
    follower.last = news;
    // JSON has no line breaks of its own.
    if (text !== null) this.send(follower, `event: news\ndata: ${text}\n\n`, Date.now());
  }

  private send(follower: Follower, text: string, now: number): void {
    if (!follower.reply.write(text)) follower.behind = now;
  }
}

/** Sections that are different, as JSON; null where none is. */
function changed(last: News | null, news: News): string | null {
  const parts = Object.entries(news).filter(([name, markup]) => last?.[name] !== markup);
  return parts.length === 0 ? null : JSON.stringify(Object.fromEntries(parts));
}
