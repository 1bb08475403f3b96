import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { initWasm, Resvg } from "@resvg/resvg-wasm";

const find = createRequire(import.meta.url).resolve;

await initWasm(readFileSync(find("@resvg/resvg-wasm/index_bg.wasm")));

const FONTS = [
  "@expo-google-fonts/tinos/400Regular/Tinos_400Regular.ttf",
  "@expo-google-fonts/tinos/400Regular_Italic/Tinos_400Regular_Italic.ttf",
  "@expo-google-fonts/tinos/700Bold/Tinos_700Bold.ttf",
  // For the flats and sharps in words.
  "dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf",
].map((name) => new Uint8Array(readFileSync(find(name))));

export interface Pixels {
  readonly width: number;
  readonly height: number;
  /** Red, green, blue, opacity of each. */
  readonly bytes: Uint8Array;
  readonly png: Uint8Array;
}

/** A picture as pixels, on a background; the same on every machine. */
export function pixelsOf(svg: string, background: string): Pixels {
  const image = new Resvg(svg, {
    background,
    font: { fontBuffers: FONTS, serifFamily: "Tinos", defaultFontFamily: "Tinos" },
  }).render();
  return { width: image.width, height: image.height, bytes: image.pixels, png: image.asPng() };
}

/** The width and height a PNG file says it has (PNG, "IHDR": bytes 16 to 23). */
function sizeOf(png: Uint8Array): { readonly width: number; readonly height: number } {
  const view = new DataView(png.buffer, png.byteOffset, png.byteLength);
  return { width: view.getUint32(16), height: view.getUint32(20) };
}

/** A PNG file as pixels. */
export function pixelsOfPng(png: Uint8Array): Pixels {
  const { width, height } = sizeOf(png);
  return pixelsOf(`${head(width, height)}${placed(png, 0)}</svg>`, "white");
}

/** How many pixels of two pictures differ by more than an eye would mind; all of them where the sizes differ. */
export function differing(a: Pixels, b: Pixels): number {
  if (a.width !== b.width || a.height !== b.height) return Math.max(a.width * a.height, b.width * b.height);
  let count = 0;
  for (let at = 0; at < a.bytes.length; at += 4) {
    for (let channel = 0; channel < 3; channel++) {
      if (Math.abs((a.bytes[at + channel] ?? 0) - (b.bytes[at + channel] ?? 0)) > 24) {
        count++;
        break;
      }
    }
  }
  return count;
}

/** Two pictures and what differs between them, one under the other. */
export function sideBySide(before: Uint8Array, now: Uint8Array): Uint8Array {
  const [a, b] = [sizeOf(before), sizeOf(now)];
  const width = Math.max(a.width, b.width);
  const height = Math.max(a.height, b.height);
  const third = 2 * (height + 10);
  return pixelsOf(
    `${head(width, 3 * height + 20)}${placed(before, 0)}${placed(now, height + 10)}<g style="isolation:isolate">${placed(before, third)}${placed(now, third, "mix-blend-mode:difference")}</g></svg>`,
    "#808080",
  ).png;
}

function head(width: number, height: number): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`;
}

function placed(png: Uint8Array, y: number, style = ""): string {
  const { width, height } = sizeOf(png);
  const data = Buffer.from(png).toString("base64");
  return `<image y="${y}" width="${width}" height="${height}" style="${style}" href="data:image/png;base64,${data}"/>`;
}
