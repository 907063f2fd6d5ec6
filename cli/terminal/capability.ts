/** What the terminal can do, decided once from the options, the environment and the streams; nothing else looks at them. */

export const COLOR_WISHES = ['auto', 'always', 'never'] as const;
export type ColorWish = (typeof COLOR_WISHES)[number];

/** From none to 24 bits. */
export type Colors = 'none' | 'sixteen' | 'many' | 'full';

export interface Surroundings {
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly stdin: { readonly isTTY?: boolean };
  readonly stdout: { readonly isTTY?: boolean; readonly columns?: number; readonly rows?: number };
  readonly stderr: { readonly isTTY?: boolean; readonly columns?: number };
}

export interface Wishes {
  readonly color?: ColorWish;
  readonly ascii?: boolean;
  /** Columns. */
  readonly width?: number;
  /** No screen even on a terminal. */
  readonly text?: boolean;
}

export interface Capability {
  readonly colors: Colors;
  /** False: nothing but 7-bit characters, save in names. */
  readonly unicode: boolean;
  /** Columns for text. */
  readonly width: number;
  /** A screen that is drawn and answers to keys can be shown. */
  readonly screen: boolean;
  /** Someone watches stderr while we work. */
  readonly progress: boolean;
}

/** Columns where no terminal says how wide it is. */
/** Columns where nobody says. */
export const USUAL_WIDTH = 80;
const NARROWEST = 20;
const WIDEST = 500;

export function capabilityOf(around: Surroundings, wishes: Wishes): Capability {
  const { env, stdin, stdout } = around;
  const tty = stdout.isTTY === true;
  const dumb = env.TERM === 'dumb';
  const width = wishes.width ?? (tty ? stdout.columns : undefined) ?? USUAL_WIDTH;
  return {
    colors: colorsOf(around, wishes.color ?? 'auto'),
    unicode: wishes.ascii !== true && speaksUnicode(env),
    width: Math.min(WIDEST, Math.max(NARROWEST, width)),
    screen: tty && stdin.isTTY === true && !dumb && wishes.text !== true && (stdout.rows ?? 0) > 0,
    progress: around.stderr.isTTY === true && !dumb,
  };
}

/** The option first, then NO_COLOR (when it is not empty), FORCE_COLOR, TERM=dumb, and whether it is a terminal. */
function colorsOf({ env, stdout }: Surroundings, wish: ColorWish): Colors {
  if (wish === 'never') return 'none';
  if (wish === 'always') return depthOf(env);
  if (env.NO_COLOR) return 'none';
  if (env.FORCE_COLOR !== undefined) {
    const forced = { '0': 'none', false: 'none', '1': 'sixteen', '2': 'many', '3': 'full' } as const;
    return Object.hasOwn(forced, env.FORCE_COLOR) ? forced[env.FORCE_COLOR as keyof typeof forced] : depthOf(env);
  }
  return stdout.isTTY === true && env.TERM !== 'dumb' ? depthOf(env) : 'none';
}

function depthOf(env: Surroundings['env']): Colors {
  if (/^(truecolor|24bit)$/i.test(env.COLORTERM ?? '')) return 'full';
  return /256|direct/.test(env.TERM ?? '') ? 'many' : 'sixteen';
}

/** A locale that names another encoding, or the plain `C`, has no place for our marks; none at all is taken for UTF-8. */
function speaksUnicode(env: Surroundings['env']): boolean {
  const locale = env.LC_ALL || env.LC_CTYPE || env.LANG;
  return !locale || /utf-?8/i.test(locale);
}
