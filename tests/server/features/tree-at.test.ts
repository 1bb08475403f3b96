import { describe, expect, test } from "vitest";
import { readSource } from "../../../grammar/pieces";
import { chainAt, pieceAt } from "../../../server/features/tree-at";
import { oneFile } from "../../fixture";

/** The nodes that hold the cursor, from the outermost inwards. */
function chain(picture: string): string[] {
  const { text, cursor = 0 } = oneFile(picture);
  const at = pieceAt(readSource(text), cursor);
  if (at === undefined) return [];
  return chainAt(at.piece, cursor - at.start).map(({ as, node }) => {
    const words = at.piece.text.slice(node.span.start, node.span.end).replace(/\s+/g, " ");
    return `${as}: ${words.length > 24 ? `${words.slice(0, 21)}…` : words}`;
  });
}

describe("what holds an offset", () => {
  test("declaration, block, statement, clause, leaf", () => {
    expect(chain('area "A"\nroutine "R" {\n  "A" keys C, G‸b, F  twice\n}\n')).toEqual([
      'declaration: routine "R" { "A" key…',
      'block: { "A" keys C, Gb, F t…',
      'statement: "A" keys C, Gb, F twice',
      "clause: keys C, Gb, F",
      "leaf: Gb",
      "leaf: Gb",
    ]);
  });

  test("where two meet, the one that begins there; at the end of a word still that word", () => {
    expect(chain('area "A"‸').at(-1)).toBe('leaf: "A"');
    expect(chain('area "A"\n‸area "B"\n')).toEqual(['declaration: area "B"']);
    expect(chain('exercise "A" { music { (‸C4) } }').at(-1)).toBe("clause: C4");
    expect(chain('exercise "A" { music { (C4‸) } }').at(-1)).toBe("clause: )");
  });

  test("nothing in a comment above, between declarations, or in an empty file", () => {
    expect(chain('# a‸bove\narea "A"\n')).toEqual([]);
    expect(chain('area "A"\n\n‸\narea "B"\n')).toEqual([]);
    expect(chain("‸")).toEqual([]);
  });
});
