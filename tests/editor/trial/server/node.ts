import { createConnection, ProposedFeatures } from "vscode-languageserver/node";
import { serve } from "./serve";

// The transport (--node-ipc, --stdio, …) stands on the command line and is read by createConnection.
serve(createConnection(ProposedFeatures.all), "node");
