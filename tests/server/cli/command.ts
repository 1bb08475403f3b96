import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildSync } from "esbuild";

const ROOT = fileURLToPath(new URL("../../..", import.meta.url));

let program: string | undefined;

/** The command as it is shipped, bundled afresh once for each test file. */
export function bundled(): string {
  if (program === undefined) {
    const outdir = mkdtempSync(join(tmpdir(), "leadpipe-bundle-"));
    buildSync({
      entryPoints: {
        leadpipe: join(ROOT, "server/launch.ts"),
        cli: join(ROOT, "server/cli.ts"),
        engraver: join(ROOT, "server/engraver.ts"),
        press: join(ROOT, "server/press.ts"),
      },
      bundle: true,
      external: ["verovio", "@myriaddreamin/typst-ts-web-compiler"],
      platform: "node",
      target: "node20",
      format: "cjs",
      outdir,
      outExtension: { ".js": ".cjs" },
      logLevel: "warning",
    });
    // What stays outside is looked for beside the command, as in an installed package.
    symlinkSync(join(ROOT, "node_modules"), join(outdir, "node_modules"));
    program = join(outdir, "leadpipe.cjs");
  }
  return program;
}

export interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** A studio's folder for one test. */
export class Folder {
  readonly path = mkdtempSync(join(tmpdir(), "leadpipe-test-"));

  constructor(files: Readonly<Record<string, string | Uint8Array>> = {}) {
    for (const [name, content] of Object.entries(files)) this.write(name, content);
  }

  write(name: string, content: string | Uint8Array): void {
    const path = join(this.path, name);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, content);
  }

  /** Runs the command in the folder. */
  run(args: readonly string[], more: { input?: string; env?: Record<string, string> } = {}): Ended {
    const ended = spawnSync(process.execPath, [bundled(), ...args], {
      cwd: this.path,
      input: more.input ?? "",
      encoding: "utf8",
      env: { ...process.env, NO_COLOR: "", ...more.env },
      // Longer than anything may take: a hang is a failure, not a wait.
      timeout: 20_000,
    });
    return { code: ended.status, out: ended.stdout, err: ended.stderr };
  }

  /** Runs it on a terminal, as `script` of util-linux makes one; undefined where there is no `script`. */
  runOnTerminal(args: readonly string[], env: Record<string, string> = {}): string | undefined {
    const command = [process.execPath, bundled(), ...args].map((word) => `'${word}'`).join(" ");
    const ended = spawnSync("script", ["-qec", command, "/dev/null"], {
      cwd: this.path,
      encoding: "utf8",
      env: { ...process.env, TERM: "xterm", NO_COLOR: "", ...env },
      timeout: 20_000,
    });
    return ended.error === undefined ? ended.stdout : undefined;
  }

  remove(): void {
    rmSync(this.path, { recursive: true, force: true });
  }
}

/** The shortest studio that has everything: an area, an exercise, a level, a student, a term. */
export const SMALL = `area "Tones"

exercise "Fifths" {
  in "Tones"
  key C major
  meter 4/4
  tempo 1/4 = 60
  music { 1/2 C4 G4 | 1/1 C4 ' | }
  rest equal
}

level "Seniors" {
  instrument trumpet in Bb
  range G3 to A5
  limit F#3 to C6
  upper from F5
  breath 10 s
  tongue sixteenths at 105
  each day { clock at most 45 min  playing at most 28 min }
}

student "K. M." like "Seniors" { limit F#3 to Bb5 }

term "Autumn" for "Seniors" {
  from 2026-09-07 to 2026-09-19
  practice Mon to Sat
  weeks 1 to 2 {
    Mon to Fri "Morning" 10 min {
      "Fifths" keys C up by half step to E twice
    }
  }
}
`;
