import {
  type BaseLanguageClient,
  CloseAction,
  ErrorAction,
  type LanguageClientOptions,
  RevealOutputChannelOn,
} from "vscode-languageclient";
import type { LeadpipeOptions } from "../server/protocol/requests";
import { answerFileRequests } from "./files";
import type { ClientWishes, MadeClient } from "./host";
import { PLAN_LANGUAGE } from "./plan-editor";
import { withoutShadows } from "./shadows";
import { tellThemes, themeKind } from "./theme";

/** How the client is called in the settings of its trace, and to a person. */
export const CLIENT_ID = "leadpipe";
export const CLIENT_NAME = "Leadpipe";

/** What the client says of itself when it starts. */
function told(): LeadpipeOptions {
  return { files: true, state: true, theme: themeKind() };
}

/** How a client of either host is set up. */
export function clientOptions({ output, onEnd }: ClientWishes): LanguageClientOptions {
  return {
    documentSelector: [{ language: PLAN_LANGUAGE }],
    initializationOptions: told,
    outputChannel: output,
    revealOutputChannelOn: RevealOutputChannelOn.Never,
    middleware: withoutShadows,
    errorHandler: {
      // A message that could not be read or written is logged; the next one may well be.
      error: () => ({ action: ErrorAction.Continue, handled: true }),
      closed: () =>
        onEnd()
          ? {
              action: CloseAction.Restart,
              handled: true,
              message: "The server ended by itself and is started anew.",
            }
          : {
              action: CloseAction.DoNotRestart,
              handled: true,
              message: "The server ended and is left alone.",
            },
    },
  };
}

/** A client of either host, with what is set up around it. */
export function madeClient(client: BaseLanguageClient, endServer: () => void): MadeClient {
  return { client, around: [...answerFileRequests(client), tellThemes(client)], endServer };
}
