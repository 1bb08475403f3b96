import { type Browser, chromium } from "playwright-core";
import { Failure } from "./failure";
import { findProgram } from "./find-program";
import { programs } from "./programs";

/**
 * Starts Debian's Chromium without a window. It can reach nothing but the loopback address, so a test can
 * neither depend on the network nor tell it anything.
 */
export async function startChromium(): Promise<Browser> {
  const executablePath = findProgram(programs.chromium);
  if (executablePath === undefined) {
    throw new Failure('Chromium is missing. Run "npm run provision" first.');
  }
  return chromium.launch({
    executablePath,
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
      // A suite has no hand to click with before something may sound.
      "--autoplay-policy=no-user-gesture-required",
      "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
    ],
  });
}
