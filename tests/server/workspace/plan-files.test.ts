import { symlinkSync, unlinkSync } from "node:fs";
import { join } from "node:path";
import { afterEach, describe, expect, test } from "vitest";
import { SIZE_LIMIT } from "../../../server/protocol/plan-text";
import type { Disk } from "../../../server/workspace/disk";
import { NODE_DISK } from "../../../server/workspace/node-disk";
import { PlanFiles, type ReadingProgress } from "../../../server/workspace/plan-files";
import { Workspace } from "../../../server/workspace/workspace";
import { Folder, SMALL } from "../cli/command";

const folders: Folder[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) folder.remove();
});

/** A workspace on a real folder. */
function opened(files: Readonly<Record<string, string | Uint8Array>>, below = "", disk: Disk = NODE_DISK) {
  const folder = new Folder(files);
  folders.push(folder);
  const workspace = new Workspace(
    { now: () => 0, turn: () => new Promise((resolve) => setImmediate(resolve)) },
    { checked: () => {}, settled: () => {}, failed: (_path, error) => expect.fail(String(error)) },
  );
  const far: ReadingProgress[] = [];
  const planFiles = new PlanFiles(workspace, disk, (each) => far.push(each));
  const root = join(folder.path, below);
  return {
    folder,
    workspace,
    planFiles,
    far,
    path: (name: string) => join(folder.path, name),
    scan: () => planFiles.scan([root]),
    codes: (name: string) =>
      workspace.checked.file(join(folder.path, name))?.findings.map(({ code }) => code),
    names: () => workspace.checked.files.map(({ path }) => path.slice(folder.path.length + 1)),
  };
}

const AREA = 'area "A"\n';

describe("what is read", () => {
  test("the plan files of a folder and below, but no hidden ones and no others", async () => {
    const { scan, names } = opened({
      "a.practice": AREA,
      "deep/er/b.practice": AREA,
      ".hidden/c.practice": AREA,
      "node_modules/d.practice": AREA,
      "notes.txt": AREA,
    });
    await scan();
    expect(names()).toEqual(["a.practice", "deep/er/b.practice"]);
  });

  test("files they use outside of it, and the studio's file above, for what they mean alone", async () => {
    const { scan, names, workspace, path } = opened(
      {
        "studio.practice": AREA,
        "other/book.practice": 'use "inner.practice"\n',
        "other/inner.practice": AREA,
        "year/term.practice": 'use "../other/book.practice"\n',
      },
      "year",
    );
    await scan();
    expect(names().sort()).toEqual([
      "other/book.practice",
      "other/inner.practice",
      "studio.practice",
      "year/term.practice",
    ]);
    expect(workspace.checked.files.filter(({ asked }) => asked).map((file) => file.path)).toEqual([
      path("year/term.practice"),
    ]);
  });

  test("a name that differs in capitals is found and told of", async () => {
    const { scan, codes } = opened(
      { "other/Book.practice": AREA, "year/term.practice": 'use "../other/book.practice"\n' },
      "year",
    );
    await scan();
    expect(codes("year/term.practice")).toEqual(["use-case"]);
  });

  test("a name whose accents are two signs on the disk is the one that is written with one", async () => {
    const apart = (name: string): string => name.normalize("NFD");
    const { scan, codes, names } = opened(
      {
        [apart("other/Études.practice")]: AREA,
        [apart("ältere/book.practice")]: AREA,
        [apart("year/Gehör.practice")]: AREA,
        "year/term.practice":
          'use "../other/Études.practice"\nuse "../ältere/book.practice"\nuse "Gehör.practice"\n',
        "year/second.practice": 'use "../other/études.practice"\n',
      },
      "year",
    );
    await scan();
    expect(codes("year/term.practice")).toEqual([]);
    expect(codes("year/second.practice")).toEqual(["use-case"]);
    expect(names()).toHaveLength(5);
  });

  test("what cannot be read says why, and the others go on", async () => {
    const { scan, codes } = opened({
      "binary.practice": new Uint8Array([0, 1, 2]),
      "latin.practice": new Uint8Array([0xe9, 0x20]),
      "large.practice": "#".repeat(SIZE_LIMIT + 1),
      "empty.practice": "",
      "good.practice": AREA,
    });
    await scan();
    expect(codes("binary.practice")).toEqual(["file-not-text"]);
    expect(codes("latin.practice")).toEqual(["file-not-text"]);
    expect(codes("large.practice")).toEqual(["file-too-large"]);
    expect(codes("empty.practice")).toEqual(["file-empty"]);
    expect(codes("good.practice")).toEqual([]);
  });

  test("a link and its file are one, and a link that leads back up does not end the world", async () => {
    const { scan, names, folder, codes } = opened({
      "a/book.practice": AREA,
      "term.practice": 'use "link.practice"\n',
    });
    symlinkSync(join(folder.path, "a/book.practice"), join(folder.path, "link.practice"));
    symlinkSync(folder.path, join(folder.path, "a/up"));
    await scan();
    expect(names()).toEqual(["a/book.practice", "term.practice"]);
    expect(codes("term.practice")).toEqual([]);
  });
});

describe("while folders are still looked through", () => {
  /** A disk on which looking through folders ends when it is told to. */
  function slow() {
    let end = (): void => {};
    const held = new Promise<void>((resolve) => {
      end = resolve;
    });
    const disk: Disk = {
      ...NODE_DISK,
      list: async (folders, looked) => {
        const listing = await NODE_DISK.list(folders, looked);
        await held;
        return listing;
      },
    };
    return { disk, end };
  }

  test("what is open is checked with what it uses, and nothing is called unused before all is known", async () => {
    const { disk, end } = slow();
    const unused = SMALL.replace("Fifths", "Sixths").replace(/term [\s\S]*/, "");
    const { scan, codes, workspace, planFiles, path } = opened(
      { "book.practice": unused, "spare.practice": 'use "nowhere.practice"\n' },
      "",
      disk,
    );
    const scanned = scan();
    const text = `use "book.practice"\n${SMALL.replace("Fifths", "Fourths")}`;
    workspace.setOpen(path("autumn.practice"), text.replace('area "Tones"\n', ""));
    await planFiles.opened();
    await workspace.settled();
    expect(codes("autumn.practice")).toContain("unknown-name");
    expect(codes("autumn.practice")).not.toContain("use-missing");
    expect(codes("autumn.practice")).not.toContain("unused-exercise");
    expect(codes("spare.practice")).toBeUndefined();
    let all = false;
    const read = workspace.readIn().then(() => {
      all = true;
    });
    await workspace.readSoFar();
    expect(all).toBe(false);
    end();
    await read;
    await scanned;
    await workspace.settled();
    expect(codes("spare.practice")).toEqual(["use-missing"]);
    expect(codes("autumn.practice")).toContain("unused-exercise");
  });

  test("what is told to have changed in between is read once they are", async () => {
    const { disk, end } = slow();
    const { scan, codes, planFiles, folder, path } = opened({ "a.practice": AREA }, "", disk);
    const scanned = scan();
    // The folder has been passed when the file comes.
    await planFiles.follow();
    folder.write("b.practice", "term\n");
    await planFiles.changed([path("b.practice")]);
    end();
    await scanned;
    expect(codes("b.practice")).not.toEqual([]);
    expect(codes("b.practice")).toBeDefined();
  });

  test("it is said how many they are so far, and then how many plans are read", async () => {
    const many = Object.fromEntries(Array.from({ length: 120 }, (_, i) => [`f${i}/a.practice`, AREA]));
    const { scan, far } = opened(many);
    await scan();
    expect(far[0]).toEqual({ folders: 100 });
    expect(far[1]).toEqual({ done: 0, all: 120 });
    expect(far.at(-1)).toEqual({ done: 112, all: 120 });
  });
});

describe("what changes on the disk", () => {
  test("a file that comes is the one that was missing; one that goes is missing again", async () => {
    const { scan, codes, folder, planFiles, path } = opened({ "term.practice": 'use "book.practice"\n' });
    await scan();
    expect(codes("term.practice")).toEqual(["use-missing"]);
    folder.write("book.practice", AREA);
    await planFiles.changed([path("book.practice")]);
    expect(codes("term.practice")).toEqual([]);
    unlinkSync(path("book.practice"));
    await planFiles.changed([path("book.practice")]);
    expect(codes("term.practice")).toEqual(["use-missing"]);
  });

  test("a use line that is typed brings its file in", async () => {
    const { scan, codes, workspace, planFiles, path } = opened(
      { "other/book.practice": AREA, "year/term.practice": AREA },
      "year",
    );
    await scan();
    workspace.setOpen(path("year/term.practice"), 'use "../other/book.practice"\n');
    await planFiles.follow();
    expect(codes("year/term.practice")).toEqual([]);
  });

  test("a folder that is taken away takes its files along, but not what is open", async () => {
    const { scan, names, workspace, planFiles, path } = opened({ "a.practice": AREA, "b.practice": AREA });
    await scan();
    workspace.setOpen(path("b.practice"), AREA);
    await planFiles.scan([]);
    expect(names()).toEqual(["b.practice"]);
  });

  test("a file beyond the folders that was open from the start is read when it is closed", async () => {
    const { scan, codes, names, workspace, planFiles, path } = opened(
      { "other/book.practice": AREA, "year/term.practice": 'use "../other/book.practice"\n' },
      "year",
    );
    workspace.setOpen(path("other/book.practice"), AREA);
    await scan();
    workspace.close(path("other/book.practice"));
    await planFiles.closed(path("other/book.practice"));
    expect(codes("year/term.practice")).toEqual([]);
    workspace.setOpen(path("other/spare.practice"), AREA);
    workspace.close(path("other/spare.practice"));
    await planFiles.closed(path("other/spare.practice"));
    expect(names()).not.toContain("other/spare.practice");
  });

  test("of one that was edited and saved, what was saved holds and not what was read before", async () => {
    const { scan, workspace, planFiles, folder, path } = opened(
      { "other/book.practice": AREA, "year/term.practice": 'use "../other/book.practice"\n' },
      "year",
    );
    await scan();
    workspace.setOpen(path("other/book.practice"), 'area "B"\n');
    folder.write("other/book.practice", 'area "B"\n');
    workspace.close(path("other/book.practice"));
    await planFiles.closed(path("other/book.practice"));
    expect(workspace.checked.file(path("other/book.practice"))?.text).toBe('area "B"\n');
  });

  test("an open file is what the editor says until it is closed", async () => {
    const { scan, workspace, planFiles, folder, path } = opened({ "a.practice": AREA });
    await scan();
    workspace.setOpen(path("a.practice"), "# mine\n");
    folder.write("a.practice", 'area "B"\n');
    await planFiles.changed([path("a.practice")]);
    expect(workspace.checked.file(path("a.practice"))?.text).toBe("# mine\n");
    workspace.close(path("a.practice"));
    expect(workspace.checked.file(path("a.practice"))?.text).toBe('area "B"\n');
  });
});
