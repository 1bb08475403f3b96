import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import type { Frame } from "playwright-core";
import { Failure } from "./failure";

/** The levels A and AA of WCAG 2.0 to 2.2. */
const WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
}

declare const axe: {
  run(context: Document, options: object): Promise<{ readonly violations: readonly Violation[] }>;
};

/** Looks in a page for what keeps people out, as far as axe-core can tell. Fails where there is any, naming each. */
export async function audit(title: string, page: Frame): Promise<void> {
  await page.evaluate(await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8"));
  const { violations } = await page.evaluate(
    (tags) => axe.run(document, { runOnly: { type: "tag", values: tags } }),
    WCAG,
  );
  const told = violations.map(
    ({ id, nodes }) =>
      `${id}: ${nodes.map(({ html, failureSummary }) => `${html.slice(0, 120)} ${failureSummary}`).join("; ")}`,
  );
  if (told.length > 0) throw new Failure(`${title}: ${told.join("\n")}`);
}
