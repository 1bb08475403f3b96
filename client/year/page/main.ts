import type { FromYearPage, ToYearPage } from "../messages";
import { become } from "./become";

/** What VS Code gives to the script of a page, once. */
declare function acquireVsCodeApi(): { postMessage(message: FromYearPage): void };

const editor = acquireVsCodeApi();
const page = document.getElementById("page");

document.addEventListener("securitypolicyviolation", ({ violatedDirective, blockedURI }) => {
  editor.postMessage({ kind: "violation", words: `${violatedDirective} ${blockedURI}` });
});

window.addEventListener("message", ({ data }: MessageEvent<ToYearPage>) => {
  if (page === null) return;
  const fresh = page.cloneNode(false);
  if (!(fresh instanceof HTMLElement)) return;
  fresh.innerHTML = data.body;
  become(page, fresh);
  const all = (selector: string): NodeListOf<Element> => page.querySelectorAll(selector);
  editor.postMessage({
    kind: "shown",
    headings: [...all("h1, h2, h3, h4")].map(({ textContent }) => textContent ?? ""),
    tables: all("table").length,
    // Notation is drawn in pictures inside of a picture.
    pictures: all("svg:not(svg svg)").length,
  });
});

editor.postMessage({ kind: "ready" });
