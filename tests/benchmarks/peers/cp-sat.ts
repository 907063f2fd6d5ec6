/** The door to CP-SAT, the npm package `or-tools-wasm`, which is installed in this folder only. */
import type { ProgramDocument } from './program.js';

export interface Found {
  /** The solver's own, since the call. */
  readonly seconds: number;
  readonly objective: number;
  readonly values: readonly number[];
}

export interface Answer {
  readonly status: string;
  readonly objective: number;
  readonly bound: number;
  /** Each better solution, the best last. */
  readonly found: readonly Found[];
  readonly seconds: number;
}

export interface SearchSettings {
  readonly seconds: number;
  readonly log: boolean;
}

interface Response {
  readonly status?: string | number;
  readonly objectiveValue?: number;
  readonly bestObjectiveBound?: number;
  /** Seconds since the call. */
  readonly wallTime?: number;
  readonly solution?: readonly (number | string | { toNumber(): number })[];
}

interface CpSat {
  loadModule(): Promise<unknown>;
  createModel(model: unknown): Promise<Uint8Array>;
  validate(model: Uint8Array): Promise<{ ok: boolean; message: string }>;
  solve(
    model: Uint8Array,
    parameters: Record<string, unknown>,
    callbacks: {
      onSolution?: (response: Response) => void;
      onBestBound?: (bound: number) => void;
      onLog?: (message: string) => void;
    },
  ): Promise<{ response: Response | null }>;
}

const STATUS = ['UNKNOWN', 'MODEL_INVALID', 'FEASIBLE', 'INFEASIBLE', 'OPTIMAL'];

/** Loads the solver, which takes a while the first time. Throws where it is not installed. */
export async function loadSolver(): Promise<CpSat> {
  // The name is kept from the type checker, which runs where the package is not installed.
  const name: string = 'or-tools-wasm/cp-sat';
  try {
    const { CpSat } = (await import(name)) as { CpSat: CpSat };
    await CpSat.loadModule();
    return CpSat;
  } catch (error) {
    throw new Error(`CP-SAT is not installed: run "npm install" in tests/benchmarks/peers first (${String(error)})`);
  }
}

export async function solveProgram(document: ProgramDocument, settings: SearchSettings): Promise<Answer> {
  const solver = await loadSolver();
  const bytes = await solver.createModel(document);
  const check = await solver.validate(bytes);
  if (!check.ok) throw new Error(check.message);
  const found: Found[] = [];
  const begun = performance.now();
  const seconds = (): number => (performance.now() - begun) / 1000;
  let bound = Number.NEGATIVE_INFINITY;
  const read = (response: Response): number[] => (response.solution ?? []).map(Number);
  const { response } = await solver.solve(
    bytes,
    { maxTimeInSeconds: settings.seconds, numWorkers: 1, randomSeed: 1, logSearchProgress: settings.log },
    {
      onSolution: (one) => {
        found.push({ seconds: one.wallTime ?? seconds(), objective: one.objectiveValue ?? 0, values: read(one) });
      },
      onBestBound: (value) => {
        bound = value;
      },
      ...(settings.log && { onLog: (message: string) => void process.stderr.write(`${message}\n`) }),
    },
  );
  if (response === null) throw new Error('CP-SAT gave no answer');
  const status = typeof response.status === 'number' ? STATUS[response.status]! : (response.status ?? 'UNKNOWN');
  return {
    status,
    objective: response.objectiveValue ?? Number.POSITIVE_INFINITY,
    bound: response.bestObjectiveBound ?? bound,
    found,
    seconds: seconds(),
  };
}
