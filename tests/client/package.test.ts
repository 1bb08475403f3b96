import { existsSync } from "node:fs";
import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import manifest from "../../client/manifest.json";
import { BUNDLES, PRESS_FILES, ROOT, VEROVIO_FILES } from "../../client/packaging/bundle";
import { PACKAGE_BOUND, packedSize, WEB_BOUND, webSize } from "../../client/packaging/sizes";
import { fillStage, shippedManifest } from "../../client/packaging/stage";
import { launchPress } from "../../server/launch-press";
import { SHOW_WEEK } from "../../server/protocol/requests";

/** Commands that only the extension itself calls, with arguments that nobody types. */
const INTERNAL: readonly string[] = [SHOW_WEEK];

describe("what ships", () => {
  let folder = "";
  beforeAll(async () => {
    folder = await mkdtemp(path.join(tmpdir(), "leadpipe-package-test-"));
    await fillStage(folder);
  }, 60_000);
  afterAll(() => rm(folder, { recursive: true, force: true }));

  test("is what is needed and nothing else", async () => {
    const entries = await readdir(folder, { recursive: true, withFileTypes: true });
    const files = entries
      .filter((entry) => entry.isFile())
      .map((entry) => path.relative(folder, path.join(entry.parentPath, entry.name)));
    const loaded = files.filter((file) => /\.([cm]?js|wasm|ttf)$/.test(file)).sort();
    const beside = [...VEROVIO_FILES, ...PRESS_FILES].map(([, to]) => to);
    expect(loaded).toEqual([...BUNDLES, ...beside].sort());
    const rest = files.filter((file) => !loaded.includes(file));
    expect(rest.filter((file) => !/\.(json|md|svg|png|css|txt)$|^LICENSE$/.test(file))).toEqual([]);
  });

  test("holds every file that its manifest names", () => {
    const named = [
      ...JSON.stringify(manifest).matchAll(/"(?:\.\/)?((?:dist|grammar|media|walkthrough)\/[^"]+)"/g),
    ];
    expect(named.length).toBeGreaterThan(10);
    for (const [, file = ""] of named) expect(existsSync(path.join(folder, file)), file).toBe(true);
  });

  test("names no folder of the computer it was made on", async () => {
    for (const name of BUNDLES)
      expect(await readFile(path.join(folder, name), "utf8"), name).not.toContain(ROOT);
  });

  test("has the licences of what it did not write beside it", async () => {
    for (const [folderOf, name] of [
      ["verovio", "LGPL-3.0.txt"],
      ["press", "Apache-2.0.txt"],
      ["press", "OFL-1.1.txt"],
      ["press", "DejaVu.txt"],
    ] as const) {
      const readme = await readFile(path.join(folder, "dist", folderOf, "README.txt"), "utf8");
      expect(readme).toContain(name);
      expect(existsSync(path.join(folder, "dist", folderOf, name)), name).toBe(true);
    }
  });

  test("sets a page with nothing but what lies in it", async () => {
    const press = launchPress(path.join(folder, "dist", "press.cjs"));
    try {
      const { pdf } = await press.print(new Map([["/main.typ", "#set document(date: none)\nÉtude"]]));
      expect(new TextDecoder().decode(pdf.subarray(0, 5))).toBe("%PDF-");
    } finally {
      await press.stop();
    }
  });

  test("stays within what an editor may be asked to fetch", async () => {
    expect(await packedSize(folder)).toBeLessThan(PACKAGE_BOUND);
  }, 60_000);

  test("stays within what a browser may be asked to load", async () => {
    expect(await webSize(folder)).toBeLessThan(WEB_BOUND);
  });
});

describe("the manifest", () => {
  test("ships without what would mislead an editor", async () => {
    const shipped = await shippedManifest();
    for (const field of ["type", "private", "scripts", "bin", "dependencies", "devDependencies"])
      expect(shipped, field).not.toHaveProperty(field);
    expect(shipped).toMatchObject({ name: "leadpipe", publisher: "leadpipe", version: expect.any(String) });
  });

  test("contributes the commands that the client registers, all under one heading", async () => {
    const names = await readdir(path.join(ROOT, "client"), { recursive: true });
    const sources = await Promise.all(
      names
        .filter((name) => name.endsWith(".ts"))
        .map((name) => readFile(path.join(ROOT, "client", name), "utf8")),
    );
    const text = sources.join("\n");
    const contributed = manifest.contributes.commands.map((each) => each.command);
    for (const command of contributed) expect(text, command).toContain(`"${command}"`);
    const registered = [...text.matchAll(/register\(\s*"(leadpipe\.[^"]+)"/g)].map(([, command]) => command);
    expect(registered.length).toBeGreaterThan(4);
    expect(registered.filter((command) => !contributed.includes(command ?? ""))).toEqual([]);
    expect(new Set(manifest.contributes.commands.map((each) => each.category))).toEqual(
      new Set(["Leadpipe"]),
    );
    for (const { title } of manifest.contributes.commands) expect(title).toMatch(/^[A-Z]/);
    for (const command of INTERNAL) expect(contributed).not.toContain(command);
  });

  test("offers in menus only commands that it contributes, and in the palette only where they make sense", () => {
    const contributed = new Set(manifest.contributes.commands.map((each) => each.command));
    const submenus = new Set(manifest.contributes.submenus.map((each) => each.id));
    for (const items of Object.values(manifest.contributes.menus))
      for (const item of items) {
        if ("command" in item) expect(contributed, item.command).toContain(item.command);
        else expect(submenus, item.submenu).toContain(item.submenu);
      }
    // A plan in front, or one of our own pages.
    for (const item of manifest.contributes.menus.commandPalette)
      expect(item.when).toMatch(/practice|activeWebviewPanelId == 'leadpipe\./);
  });

  test("loads nothing before a plan or a command", () => {
    // A preview that was open when the editor was left is brought back with it.
    expect(manifest.activationEvents).toEqual(["onLanguage:practice", "onWebviewPanel:leadpipe.preview"]);
  });
});
