/**
 * What the client sends to the workers it starts in a browser, before anything else, to join the server to the
 * engraver: each gets one end of a channel.
 */

/** One end of a channel of messages, as far as it is used; browsers call it a MessagePort. */
export interface Port {
  postMessage(message: unknown): void;
  onmessage: ((event: { readonly data: unknown }) => void) | null;
  close(): void;
}

/** What a worker hears of whoever started it. */
export interface WorkerScope {
  addEventListener(
    type: "message",
    listener: (event: { readonly data: unknown; stopImmediatePropagation(): void }) => void,
  ): void;
}

/** To the engraver. */
export interface EngraverJoin<P = Port> {
  readonly join: "engraver";
  readonly port: P;
  /** The address of the folder that verovio's modules lie in, without a slash at its end. */
  readonly verovio: string;
}

/** To the server. */
export interface ServerJoin<P = Port> {
  readonly join: "server";
  readonly port: P;
}

export function isEngraverJoin(message: unknown): message is EngraverJoin {
  return isJoin(message, "engraver") && "verovio" in message && typeof message.verovio === "string";
}

export function isServerJoin(message: unknown): message is ServerJoin {
  return isJoin(message, "server");
}

function isJoin(message: unknown, whose: string): message is { readonly port: Port } {
  return (
    typeof message === "object" &&
    message !== null &&
    "join" in message &&
    message.join === whose &&
    "port" in message &&
    typeof message.port === "object" &&
    message.port !== null &&
    "postMessage" in message.port
  );
}
