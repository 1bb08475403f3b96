import { join } from "node:path";
import { setFlagsFromString } from "node:v8";
import { createConnection, ProposedFeatures } from "vscode-languageserver/node";
import { launchEngraver } from "./launch-engraver";
import { launchPress } from "./launch-press";
import { serve } from "./serve";
import { NODE_DISK } from "./workspace/node-disk";

// Every letter typed in a long file leaves a copy of it behind; left to itself, the engine lets four times as much
// pile up as is in use before it collects. This is two and a half times, measured with `npm run bench -- e`.
setFlagsFromString("--heap-growing-percent=150");

// How editor and server speak (--stdio, --node-ipc …) stands on the command line and is read by createConnection;
// it also ends this process when the editor's ends.
serve(createConnection(ProposedFeatures.all), {
  now: () => performance.now(),
  turn: () => new Promise((resolve) => setImmediate(resolve)),
  disk: NODE_DISK,
  // The thread starts with the first picture and ends with this process.
  engraver: launchEngraver(join(__dirname, "engraver.cjs")),
  // As does this one, with the first page.
  press: launchPress(join(__dirname, "press.cjs")),
});
