import type { BaseLanguageClient, LanguageClientOptions, MessageTransports } from "vscode-languageclient";

/** A server that runs: how to speak to it, and how to end it by force. */
export interface RunningServer {
  readonly transports: MessageTransports;
  /** Ends it at once. Whoever speaks to it sees the connection close. */
  end(): void;
}

/** What differs between an editor with processes and one in a browser. */
export interface Host {
  /**
   * Starts a fresh server.
   *
   * @param tell is told what the server itself prints, for the output channel.
   */
  startServer(tell: (line: string) => void): RunningServer;
  /** A client that starts its server with this function, as often as it must. */
  clientFor(options: LanguageClientOptions, start: () => Promise<MessageTransports>): BaseLanguageClient;
}

/** How the client is called in settings of the protocol's trace, and to a person. */
export const CLIENT_ID = "leadpipe";
export const CLIENT_NAME = "Leadpipe";
