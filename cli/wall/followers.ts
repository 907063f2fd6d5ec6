/** Those who have the wall open: each gets the newest state, and whoever is slow skips what has been overtaken. */
import type { ServerResponse } from 'node:http';
import type { Right } from '../../src/wall/rights.js';

interface Follower {
  readonly reply: ServerResponse;
  readonly right: Right;
  /** Instant since which it has not taken what was sent; null while it keeps up. */
  behind: number | null;
  /** It has news to come once it takes more. */
  owed: boolean;
}

/** Milliseconds for which a phone may take nothing before it is let go; it asks again by itself. */
const PATIENCE = 20_000;

export class Followers {
  private readonly all = new Set<Follower>();

  /** @param news what whoever has this right is to see now. */
  constructor(private readonly news: (right: Right) => string) {}

  get count(): number {
    return this.all.size;
  }

  add(reply: ServerResponse, right: Right): void {
    const follower: Follower = { reply, right, behind: null, owed: false };
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

  /** To everybody, each right reckoned once. */
  tellAll(): void {
    const known = new Map<Right, string>();
    for (const follower of this.all) {
      const news = known.get(follower.right) ?? this.news(follower.right);
      known.set(follower.right, news);
      this.tell(follower, news);
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

  private tell(follower: Follower, news: string): void {
    follower.owed = follower.behind !== null;
    // JSON has no line breaks of its own.
    if (!follower.owed) this.send(follower, `event: news\ndata: ${news}\n\n`, Date.now());
  }

  private send(follower: Follower, text: string, now: number): void {
    if (!follower.reply.write(text)) follower.behind = now;
  }
}
