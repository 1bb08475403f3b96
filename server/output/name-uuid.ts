/**
 * UUIDs from names (version 5 of RFC 9562, section 5.5), so that the same thing has the same one each time and on
 * each computer. SHA-1 (FIPS 180-4, section 6.1) is worked out here because the server also runs where no module
 * of Node is; nothing is kept secret by it.
 */

/** Leadpipe's own namespace: a random UUID, fixed for ever. */
const NAMESPACE = "7b1d0a52-5a0e-4c1f-9f6b-2f4f0b8b6d31";

/** The UUID of a name in a namespace, itself a UUID; Leadpipe's own where none is given. */
export function nameUuid(name: string, namespace = NAMESPACE): string {
  const space = (namespace.match(/[0-9a-f]{2}/gi) ?? []).map((pair) => Number.parseInt(pair, 16));
  const digest = sha1(Uint8Array.from([...space, ...new TextEncoder().encode(name)]));
  const bytes = digest.slice(0, 16);
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x50;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

/** The SHA-1 digest of some bytes: 20 bytes. */
export function sha1(message: Uint8Array): Uint8Array {
  const padded = new Uint8Array((((message.length + 8) >> 6) + 1) << 6);
  padded.set(message);
  padded[message.length] = 0x80;
  const view = new DataView(padded.buffer);
  view.setUint32(padded.length - 8, Math.floor(message.length / 0x2000_0000));
  view.setUint32(padded.length - 4, (message.length << 3) >>> 0);
  const state = Uint32Array.of(0x67452301, 0xefcdab89, 0x98badcfe, 0x10325476, 0xc3d2e1f0);
  const words = new Uint32Array(80);
  for (let block = 0; block < padded.length; block += 64) {
    for (let t = 0; t < 16; t++) words[t] = view.getUint32(block + 4 * t);
    for (let t = 16; t < 80; t++) {
      words[t] = rotated(words[t - 3]! ^ words[t - 8]! ^ words[t - 14]! ^ words[t - 16]!, 1);
    }
    let [a, b, c, d, e] = [state[0]!, state[1]!, state[2]!, state[3]!, state[4]!];
    for (let t = 0; t < 80; t++) {
      const [f, k] =
        t < 20
          ? [(b & c) | (~b & d), 0x5a827999]
          : t < 40
            ? [b ^ c ^ d, 0x6ed9eba1]
            : t < 60
              ? [(b & c) | (b & d) | (c & d), 0x8f1bbcdc]
              : [b ^ c ^ d, 0xca62c1d6];
      const next = (rotated(a, 5) + f + e + k + words[t]!) >>> 0;
      [e, d, c, b, a] = [d, c, rotated(b, 30), a, next];
    }
    for (const [i, add] of [a, b, c, d, e].entries()) state[i] = state[i]! + add;
  }
  const digest = new Uint8Array(20);
  const out = new DataView(digest.buffer);
  for (const [i, word] of state.entries()) out.setUint32(4 * i, word);
  return digest;
}

function rotated(word: number, by: number): number {
  return ((word << by) | (word >>> (32 - by))) >>> 0;
}
