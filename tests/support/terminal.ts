/** The built command in a real terminal, by way of tmux. */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** The project's own folder. */
export const root = new URL('../..', import.meta.url).pathname;
const command = join(root, 'dist/cli/main.js');

function missing(): string | null {
  try {
    execFileSync('tmux', ['-V'], { stdio: 'ignore' });
  } catch {
    return 'tmux is not installed';
  }
  return existsSync(command) ? null : 'dist is not built (npm run build)';
}
/** Why tests in a real terminal must be skipped, or null. */
export const reason = missing();

/** One tmux server with a bare shell in it. */
export class Terminal {
  private readonly folder = mkdtempSync(join(tmpdir(), 'hearthtable-'));
  private readonly socket = join(this.folder, 'tmux');

  constructor(columns: number, rows: number) {
    // With DEV, Ink would look for an inspector that is not there.
    const shell = `env -u NO_COLOR -u FORCE_COLOR DEV=true LC_ALL=C.UTF-8 PS1='ready> ' sh`;
    this.tmux('-f', '/dev/null', 'new-session', '-d', '-x', String(columns), '-y', String(rows), '-c', root, shell);
    this.tmux('set', '-g', 'status', 'off');
    this.tmux('resize-window', '-x', String(columns), '-y', String(rows));
  }

  private tmux(...args: string[]): string {
    return execFileSync('tmux', ['-S', this.socket, ...args], { encoding: 'utf8' });
  }

  type(...keys: string[]): void {
    this.tmux('send-keys', ...keys);
  }

  resize(columns: number, rows: number): void {
    this.tmux('resize-window', '-x', String(columns), '-y', String(rows));
  }

  screen(): string {
    return this.tmux('capture-pane', '-p');
  }

  ask(format: string): string {
    return this.tmux('display', '-p', format).trim();
  }

  /** Waits until what is seen is as wanted; fails with what was seen instead. */
  async until(wanted: (screen: string) => boolean): Promise<string> {
    let seen = '';
    for (let tries = 0; tries < 300; tries += 1) {
      seen = this.screen();
      if (wanted(seen)) return seen;
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
    throw new Error(`waited in vain; the terminal shows:\n${seen}`);
  }

  close(): void {
    this.tmux('kill-server');
    rmSync(this.folder, { recursive: true, force: true });
  }
}
