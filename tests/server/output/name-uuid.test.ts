import { createHash } from "node:crypto";
import fc from "fast-check";
import { expect, test } from "vitest";
import { nameUuid, sha1 } from "../../../server/output/name-uuid";
import { FIXED } from "../music/fixed-seed";

/** Node's own digest of the same bytes. */
function reference(bytes: Uint8Array): string {
  return createHash("sha1").update(bytes).digest("hex");
}

function hex(bytes: Uint8Array): string {
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

test("the digest of FIPS 180-4's own example", () => {
  // Published beside the standard: SHA-1 of “abc”.
  expect(hex(sha1(new TextEncoder().encode("abc")))).toBe("a9993e364706816aba3e25717850c26c9cd0d89d");
});

test("the digest of anything is that of Node", () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
      expect(hex(sha1(bytes))).toBe(reference(bytes));
    }),
    FIXED,
  );
});

test("the UUID of RFC 9562's own example", () => {
  // Appendix A.4: www.example.com in the namespace of domain names.
  const dns = "6ba7b810-9dad-11d1-80b4-00c04fd430c8";
  expect(nameUuid("www.example.com", dns)).toBe("2ed6657d-e927-568b-95e1-2665a8aea6a2");
});
