import { expect, test } from "vitest";
import { LSPErrorCodes, ResponseError } from "vscode-languageserver/node";
import { untilAnswered } from "../../client/until-answered";

/** An asking that is refused some times, and counts how often it was tried. */
function refused(times: number, code: number) {
  let tries = 0;
  const ask = async (): Promise<string> => {
    tries++;
    if (tries <= times) throw new ResponseError(code, "not now");
    return "7:07 of 5:00";
  };
  return { ask, tries: () => tries };
}

test("a question that an edit overtook is asked again", async () => {
  const { ask, tries } = refused(2, LSPErrorCodes.ContentModified);
  expect(await untilAnswered(ask)).toBe("7:07 of 5:00");
  expect(tries()).toBe(3);
});

test("but not for ever", async () => {
  const { ask, tries } = refused(9, LSPErrorCodes.ContentModified);
  await expect(untilAnswered(ask)).rejects.toMatchObject({ code: LSPErrorCodes.ContentModified });
  expect(tries()).toBe(3);
});

test("one that was called off or failed is not", async () => {
  const { ask, tries } = refused(1, LSPErrorCodes.RequestCancelled);
  await expect(untilAnswered(ask)).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
  expect(tries()).toBe(1);
});
