/**
 * Runs the checks inside real editors: the suite in each edition of VS Code, in both extension hosts, and Neovim.
 *
 *     npm run test:editor -- [oldest] [newest] [workspace] [browser] [neovim]
 *
 * Words pick: an edition or a host leaves out the others and Neovim, `neovim` by itself leaves out VS Code.
 */
import { Failure } from "./failure";
import { countsOf, type Results } from "./outcome";
import { runAsProgram } from "./run-as-program";
import { Matrix } from "./run-matrix";

const allEditions = ["oldest", "newest"] as const;
const allHosts = ["workspace", "browser"] as const;
const known: readonly string[] = [...allEditions, ...allHosts, "neovim"];

/** Those of `all` that were asked for; all of them where none was. */
function chosen<T extends string>(all: readonly T[], asked: readonly string[]): readonly T[] {
  const some = all.filter((one) => asked.includes(one));
  return some.length > 0 ? some : all;
}

/** Packages once, runs everything asked for, and closes with the line that counts all. */
async function main(): Promise<number> {
  const asked = process.argv.slice(2);
  const unknown = asked.find((word) => !known.includes(word));
  if (unknown !== undefined) {
    throw new Failure(`Nothing is called "${unknown}". Known: ${known.join(", ")}.`);
  }
  const print = (line: string): void => console.log(line);
  const matrix = new Matrix(print);
  const all: Results[] = [];
  try {
    if (asked.length === 0 || asked.some((word) => word !== "neovim")) {
      for (const name of chosen(allEditions, asked)) {
        for (const host of chosen(allHosts, asked)) {
          print(`\n${name}, ${host} host`);
          all.push(await matrix.inVscode(name, host));
        }
      }
    }
    if (asked.length === 0 || asked.includes("neovim")) {
      print("\nneovim");
      all.push(await matrix.inNeovim());
    }
  } finally {
    await matrix.close();
  }
  const counts = all.map(countsOf);
  const passed = counts.reduce((sum, each) => sum + each.passed, 0);
  const failed = counts.reduce((sum, each) => sum + each.failed, 0);
  print(`\n${passed} passed, ${failed} failed`);
  return failed === 0 ? 0 : 1;
}

runAsProgram(main);
