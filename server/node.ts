import { join } from "node:path";
import { createConnection, ProposedFeatures } from "vscode-languageserver/node";
import { launchEngraver } from "./launch-engraver";
import { launchPress } from "./launch-press";
import { tidying } from "./launch-tidying";
import { serve } from "./serve";
import { NODE_DISK } from "./workspace/node-disk";

const idle = tidying();

// How editor and server speak (--stdio, --node-ipc …) stands on the command line and is read by createConnection;
// it also ends this process when the editor's ends.
serve(createConnection(ProposedFeatures.all), {
  now: () => performance.now(),
  turn: () => new Promise((resolve) => setImmediate(resolve)),
  idle,
  disk: NODE_DISK,
  // The thread starts with the first picture and ends with this process.
  engraver: launchEngraver(join(__dirname, "engraver.cjs")),
  // As does this one, with the first page.
  press: launchPress(join(__dirname, "press.cjs")),
});
