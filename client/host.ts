import type { Disposable, LogOutputChannel } from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";

/** What is asked of whoever makes a client. */
export interface ClientWishes {
  readonly output: LogOutputChannel;
  /** Decides what becomes of a server that ended by itself: whether it is started anew. */
  readonly onEnd: () => boolean;
}

/** A client whose server can be started, and ended by force. */
export interface MadeClient {
  readonly client: BaseLanguageClient;
  /** What was set up around it, for as long as the extension lives. */
  readonly around: readonly Disposable[];
  /** Ends the server that runs, at once; whoever speaks to it sees the connection close. */
  endServer(): void;
}

/**
 * What differs between an editor with processes and one in a browser. The client is loaded only when it is asked for:
 * it is most of the extension's code, and the editor need not wait for it.
 */
export interface Host {
  makeClient(wishes: ClientWishes): Promise<MadeClient>;
}
