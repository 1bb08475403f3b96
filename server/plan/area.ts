import type { Piece } from "../../grammar/piece";
import type { AreaDeclaration } from "../../grammar/tree";
import { type LetStand, readLet } from "./let-stand";
import type { Place } from "./place";
import { Reader } from "./reader";

/** An area of the daily basics. */
export interface Area {
  readonly name: string;
  readonly place: Place;
  readonly aims: readonly string[];
  /** Practice days it may be left alone; undefined for the studio's figure. */
  readonly atLeastEvery: number | undefined;
  readonly lets: readonly LetStand[];
}

export function readArea(piece: Piece, declaration: AreaDeclaration): { area: Area; reader: Reader } {
  const reader = new Reader(piece);
  const aims: string[] = [];
  const lets: LetStand[] = [];
  let atLeastEvery: number | undefined;
  for (const item of declaration.block?.items ?? []) {
    if (item.kind === "aim") aims.push(item.text.text);
    else if (item.kind === "let") lets.push(readLet(reader, item, declaration));
    else if (item.kind === "at least every") atLeastEvery = reader.number(item.days, "days", 1, 60);
  }
  return {
    area: { name: declaration.name.text, place: reader.place(declaration.name), aims, atLeastEvery, lets },
    reader,
  };
}
