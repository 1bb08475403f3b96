import type { Span } from "../../grammar/span";
import type { LetField } from "../../grammar/tree";
import type { Place } from "./place";
import type { Reader } from "./reader";

/** A finding the teacher lets stand, with the reason. */
export interface LetStand {
  readonly code: string;
  /** The one day it is meant for; undefined for always. */
  readonly on: number | undefined;
  readonly because: string;
  readonly place: Place;
  /** What it is said of: the declaration or block it stands in. */
  readonly scope: Place;
}

export function readLet(reader: Reader, field: LetField, scope: { readonly span: Span }): LetStand {
  return {
    code: field.code.text,
    on: field.on === undefined ? undefined : reader.date(field.on),
    because: field.because.text,
    place: reader.place(field.code),
    scope: reader.place(scope),
  };
}
