import { expect, test } from "vitest";
import { Addresses } from "../../../server/serve-addresses";

test.each([
  ["file:///home/anna/plan.practice", "/home/anna/plan.practice"],
  ["file:///c%3A/studio/plan.practice", "c:/studio/plan.practice"],
  ["file:///C:/studio/plan.practice", "c:/studio/plan.practice"],
  ["file://host/share/plan.practice", "//host/share/plan.practice"],
  ["vscode-vfs://github/owner/studio/plan.practice", "vscode-vfs:/github/owner/studio/plan.practice"],
  ["memfs:/studio/%C3%9Cbung%201.practice", "memfs:/studio/Übung 1.practice"],
  ["untitled:Untitled-1", "Untitled-1"],
])("%s is %s, and is given back as it was written", (uri, path) => {
  const addresses = new Addresses();
  expect(addresses.pathOf(uri)).toBe(path);
  expect(addresses.uriOf(path)).toBe(uri);
});

test.each([
  ["/home/anna/plan (neu).practice", "file:///home/anna/plan%20%28neu%29.practice"],
  ["c:/studio/plan.practice", "file:///c%3A/studio/plan.practice"],
  ["//host/share/plan.practice", "file://host/share/plan.practice"],
])("%s, which no editor has named, is %s", (path, uri) => {
  expect(new Addresses().uriOf(path)).toBe(uri);
  expect(new Addresses().pathOf(uri)).toBe(path);
});

test("a file in an opened folder is called as the folder is", () => {
  const addresses = new Addresses();
  addresses.setFolders(["vscode-vfs://github/owner/studio/"]);
  expect(addresses.uriOf("vscode-vfs:/github/owner/studio/the book.practice")).toBe(
    "vscode-vfs://github/owner/studio/the%20book.practice",
  );
});
