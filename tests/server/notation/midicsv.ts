import { spawnSync } from "node:child_process";
import { ensureProgram } from "../../editor/ensure-program";
import { readers } from "../../editor/programs";

/** Debian's `midicsv`, a reader of MIDI files that shares nothing with ours, installed where it is missing. */
export function findMidicsv(): Promise<string> {
  return ensureProgram(readers.midicsv, () => undefined);
}

/** One line of its output: track, tick, kind, and what follows. */
export interface CsvRow {
  readonly track: number;
  readonly tick: number;
  readonly kind: string;
  readonly rest: readonly string[];
}

/** A file as `midicsv` reads it. */
export function asCsv(program: string, bytes: Uint8Array): readonly CsvRow[] {
  const ended = spawnSync(program, ["-v", "-", "-"], { input: bytes, encoding: "latin1", timeout: 20_000 });
  if (ended.status !== 0) throw new Error(`midicsv ended with ${ended.status}: ${ended.stderr}`);
  return ended.stdout
    .split("\n")
    .filter((line) => /^\d/.test(line))
    .map((line) => {
      const [track = "", tick = "", kind = "", ...rest] = line.trim().split(", ");
      return { track: Number(track), tick: Number(tick), kind, rest };
    });
}

/** Seconds from the start to a tick, by the tempi a file holds. */
export function secondsAt(rows: readonly CsvRow[], tick: number, ticksPerQuarter: number): number {
  let seconds = 0;
  let at = 0;
  let quarter = 500_000;
  for (const row of rows.filter((each) => each.kind === "Tempo" && each.tick < tick)) {
    seconds += ((row.tick - at) * quarter) / 1e6 / ticksPerQuarter;
    at = row.tick;
    quarter = Number(row.rest[0]);
  }
  return seconds + ((tick - at) * quarter) / 1e6 / ticksPerQuarter;
}
