/** What a plan file may be, for both who read one: the server on its own disk, and the client for the server. */

/** The largest file that is read, in bytes. */
export const SIZE_LIMIT = 4_000_000;

/** The text of a file; undefined where it is not written in UTF-8. */
export function utf8(bytes: Uint8Array): string | undefined {
  try {
    // The byte order mark stays: places count from the true start of the text.
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return undefined;
  }
}
