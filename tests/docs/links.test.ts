import { existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import manifest from "../../package.json";
import { anchorsOf, linksOf } from "./blocks";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const DOCUMENTS = ["README.md", "DEVELOPERS.md", "CHANGELOG.md", "grammar/REFERENCE.md"] as const;

function textOf(path: string): string {
  return readFileSync(join(ROOT, path), "utf8");
}

describe.each(DOCUMENTS)("%s", (document) => {
  test("every link leads somewhere", () => {
    for (const link of linksOf(textOf(document))) {
      if (link.startsWith("https://")) continue;
      const [path = "", anchor] = link.split("#");
      const target = path === "" ? document : join(dirname(document), path);
      expect(existsSync(join(ROOT, target)), link).toBe(true);
      if (anchor !== undefined) expect(anchorsOf(textOf(target)), link).toContain(anchor);
    }
  });

  test("no path of anybody's computer is named", () => {
    expect(textOf(document)).not.toMatch(/(?:^|[\s`"(])\/(?:home|root|tmp|work|Users|usr|opt|var)\//m);
  });
});

describe("DEVELOPERS.md", () => {
  const code = [...textOf("DEVELOPERS.md").matchAll(/`([^`\n]+)`/g)].map((match) => match[1] ?? "");

  test("every file and folder it names exists", () => {
    const paths = code.filter((each) => /^(?:grammar|server|client|tests|samples|\.ci)\/\S*$/.test(each));
    expect(paths.length).toBeGreaterThan(30);
    const missing = paths.filter((path) => !existsSync(join(ROOT, path)));
    expect(missing).toEqual([]);
  });

  test("every script it names is in package.json", () => {
    const scripts = code.flatMap((each) => /^npm (?:run )?(\w+)/.exec(each)?.[1] ?? []);
    for (const script of scripts) {
      if (script !== "ci") expect(Object.keys(manifest.scripts), `npm ${script}`).toContain(script);
    }
  });
});
