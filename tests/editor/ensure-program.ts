import { Failure } from "./failure";
import { findProgram } from "./find-program";
import type { Program } from "./programs";
import { runToEnd } from "./run-to-end";
import { wordsOf } from "./words-of";

/** The full path of a program, installing it from Debian where it is missing. */
export async function ensureProgram(program: Program, tell: (line: string) => void): Promise<string> {
  const found = findProgram(program);
  if (found !== undefined) {
    tell(`${program.label}: ready`);
    return found;
  }
  tell(`${program.label}: installing Debian's ${program.debian} …`);
  const begun = performance.now();
  const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
  try {
    await runToEnd("apt-get", ["update"], { env });
    await runToEnd("apt-get", ["install", "-y", "--no-install-recommends", program.debian], { env });
  } catch (thrown) {
    throw new Failure(
      `${program.label} is missing and could not be installed. Install it by hand, or run this as root on Debian.\n` +
        wordsOf(thrown),
    );
  }
  const installed = findProgram(program);
  if (installed === undefined) {
    throw new Failure(
      `Debian's ${program.debian} is installed but none of ${program.names.join(", ")} is found.`,
    );
  }
  tell(`${program.label}: done in ${((performance.now() - begun) / 1000).toFixed(1)} s`);
  return installed;
}
