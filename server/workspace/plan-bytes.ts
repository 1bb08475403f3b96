import { SIZE_LIMIT, utf8 } from "../protocol/plan-text";
import type { Failure } from "./source";

/** How plan files end. */
export const EXTENSION = ".practice";

const NOT_TEXT: Failure = {
  code: "file-not-text",
  message: "This is not a text file. A plan is plain text; save it as such.",
};

export const NOT_UTF8: Failure = {
  code: "file-not-text",
  message: "This file is not written in UTF-8. Open it in your editor and save it with encoding UTF-8.",
};

/** The text of a plan file, or why it is none. */
export function decoded(bytes: Uint8Array): string | Failure {
  if (bytes.length > SIZE_LIMIT) return tooLarge(bytes.length);
  if (bytes.includes(0)) return NOT_TEXT;
  return utf8(bytes) ?? NOT_UTF8;
}

/** A text that an editor holds already, or why it is no plan. */
export function acceptable(text: string): string | Failure {
  if (text.length > SIZE_LIMIT) return tooLarge(text.length);
  return text.includes("\u0000") ? NOT_TEXT : text;
}

/** Why a file of this size, in bytes, is not read; where the size is not known, only that it is over the limit. */
export function tooLarge(size?: number): Failure {
  const is = size === undefined ? "too large" : `${(size / 1_000_000).toFixed(1)} MB`;
  return {
    code: "file-too-large",
    message: `This file is ${is}; plans are read up to ${SIZE_LIMIT / 1_000_000} MB. Split it into several files.`,
  };
}
