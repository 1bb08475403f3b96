/**
 * Bundles the extension into `dist/`: client and server for an editor with processes, and both again for one in a
 * browser. Run by itself it does only that.
 */
import { cp } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { type BuildOptions, build, type Plugin } from "esbuild";

/** The root of the project: two folders above this file. */
export const ROOT = path.resolve(import.meta.dirname, "..", "..");

/** The scripts that ship, from the package's root. The first four run where Node is, the others in a browser. */
export const BUNDLES = [
  "dist/extension.cjs",
  "dist/server.cjs",
  "dist/engraver.cjs",
  "dist/press.cjs",
  "dist/browser.js",
  "dist/worker.js",
  "dist/engraver-worker.js",
  "dist/preview/page.js",
  "dist/year/page.js",
] as const;

/** Modules of verovio's package that ship as they are, beside the engravers that load them, and where from. */
export const VEROVIO_FILES: readonly (readonly [from: string, to: string])[] = [
  "verovio-module.mjs",
  "verovio.mjs",
].map((name) => [`node_modules/verovio/dist/${name}`, `dist/verovio/${name}`]);

/** Files of the press that ship as they are, in a folder beside it, and where from: its engine and its faces. */
export const PRESS_FILES: readonly (readonly [from: string, to: string])[] = [
  "@myriaddreamin/typst-ts-web-compiler/pkg/wasm-pack-shim.mjs",
  "@myriaddreamin/typst-ts-web-compiler/pkg/typst_ts_web_compiler.mjs",
  "@myriaddreamin/typst-ts-web-compiler/pkg/typst_ts_web_compiler_bg.wasm",
  "@expo-google-fonts/tinos/400Regular/Tinos_400Regular.ttf",
  "@expo-google-fonts/tinos/700Bold/Tinos_700Bold.ttf",
  "@expo-google-fonts/tinos/400Regular_Italic/Tinos_400Regular_Italic.ttf",
  "@expo-google-fonts/tinos/700Bold_Italic/Tinos_700Bold_Italic.ttf",
  "dejavu-fonts-ttf/ttf/DejaVuSans.ttf",
  "dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf",
].map((name) => [`node_modules/${name}`, `dist/press/${path.basename(name)}`]);

/** What a browser loads. */
export const WEB_FILES: readonly string[] = [
  "dist/browser.js",
  "dist/worker.js",
  "dist/engraver-worker.js",
  "dist/preview/page.js",
  "dist/preview/page.css",
  "dist/year/page.js",
  "dist/year/page.css",
  ...VEROVIO_FILES.map(([, to]) => to),
];

const shared: BuildOptions = {
  absWorkingDir: ROOT,
  bundle: true,
  minify: true,
  legalComments: "none",
  logLevel: "warning",
};
/** VS Code 1.100, the oldest supported, carries Node 20. */
const node: BuildOptions = { ...shared, platform: "node", target: "node20", format: "cjs" };
const browser: BuildOptions = { ...shared, platform: "browser", target: "es2022", conditions: ["browser"] };

/** Leaves verovio out of a bundle: its modules lie in a folder beside it. */
const verovioBeside: Plugin = {
  name: "verovio-beside",
  setup({ onResolve }) {
    onResolve({ filter: /^verovio\/(wasm|esm)$/ }, ({ path: asked }) => ({
      path: `./verovio/${asked === "verovio/wasm" ? "verovio-module" : "verovio"}.mjs`,
      external: true,
    }));
  },
};

/** Leaves the engine of the press out of its bundle in the same way. */
const engineBeside: Plugin = {
  name: "engine-beside",
  setup({ onResolve }) {
    onResolve({ filter: /^@myriaddreamin\/typst-ts-web-compiler$/ }, () => ({
      path: "./press/wasm-pack-shim.mjs",
      external: true,
    }));
  },
};

/** Bundles everything under a folder; `dist/` of the project where none is named. */
export async function bundle(under: string = ROOT): Promise<void> {
  const to = (name: (typeof BUNDLES)[number]): string => path.join(under, name);
  await Promise.all([
    // Hosts hand the editor's own interface to the client under this name.
    build({
      ...node,
      external: ["vscode"],
      entryPoints: ["client/extension.ts"],
      outfile: to("dist/extension.cjs"),
    }),
    build({ ...node, entryPoints: ["server/node.ts"], outfile: to("dist/server.cjs") }),
    build({
      ...node,
      entryPoints: ["server/engraver.ts"],
      outfile: to("dist/engraver.cjs"),
      plugins: [verovioBeside],
    }),
    build({
      ...node,
      entryPoints: ["server/press.ts"],
      outfile: to("dist/press.cjs"),
      plugins: [engineBeside],
    }),
    // A browser's host wants CommonJS for the client; a worker is loaded by importScripts, so it is a plain script.
    build({
      ...browser,
      format: "cjs",
      external: ["vscode"],
      entryPoints: ["client/browser.ts"],
      outfile: to("dist/browser.js"),
    }),
    build({ ...browser, format: "iife", entryPoints: ["server/worker.ts"], outfile: to("dist/worker.js") }),
    build({
      ...browser,
      format: "iife",
      entryPoints: ["server/engraver-worker.ts"],
      outfile: to("dist/engraver-worker.js"),
    }),
    build({
      ...browser,
      format: "iife",
      jsx: "automatic",
      jsxImportSource: "preact",
      entryPoints: ["client/preview/page/main.tsx"],
      outfile: to("dist/preview/page.js"),
    }),
    build({
      ...shared,
      entryPoints: ["client/preview/page/page.css"],
      outfile: path.join(under, "dist/preview/page.css"),
    }),
    build({
      ...browser,
      format: "iife",
      entryPoints: ["client/year/page/main.ts"],
      outfile: to("dist/year/page.js"),
    }),
    build({
      ...shared,
      entryPoints: ["client/year/page/page.css"],
      outfile: path.join(under, "dist/year/page.css"),
    }),
    ...[...VEROVIO_FILES, ...PRESS_FILES].map(([from, beside]) =>
      cp(path.join(ROOT, from), path.join(under, beside)),
    ),
  ]);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await bundle();
