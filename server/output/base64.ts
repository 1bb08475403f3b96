/** So many bytes become letters at a time: more would be too many arguments of one call. */
const AT_A_TIME = 0x8000;

/** Bytes as text, for messages that hold nothing but text. */
export function base64(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (let at = 0; at < bytes.length; at += AT_A_TIME) {
    parts.push(String.fromCharCode(...bytes.subarray(at, at + AT_A_TIME)));
  }
  return btoa(parts.join(""));
}
