import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import type { Finding } from "../../../server/rules/finding";
import type { Checked } from "../../../server/workspace/check-sources";
import { Workspace, type WorkspaceListener } from "../../../server/workspace/workspace";
import { checkTexts } from "../check-texts";
import { SMALL } from "../cli/command";

/** Time that stands still unless it is moved, so that every step is a slice of its own or none is. */
class World {
  private time = 0;

  constructor(private readonly step: number) {}

  readonly now = (): number => {
    this.time += this.step;
    return this.time;
  };

  readonly turn = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));
}

class Listener implements WorkspaceListener {
  readonly found = new Map<string, readonly Finding[]>();
  readonly failures: unknown[] = [];
  readonly order: string[] = [];
  settledTimes = 0;

  readonly checked: WorkspaceListener["checked"] = (file, findings) => {
    this.found.set(file.path, findings);
    this.order.push(file.path);
  };
  readonly settled = (): void => {
    this.settledTimes++;
  };
  readonly failed = (_path: string, error: unknown): void => {
    this.failures.push(error);
  };
}

function workspace(step = 0): { readonly workspace: Workspace; readonly listener: Listener } {
  const listener = new Listener();
  return { workspace: new Workspace(new World(step), listener), listener };
}

/** All that is found, in words and places that two readings of the same text have in common. */
function pictureOf(checked: Checked): unknown {
  const placed = ({ place }: Pick<Finding, "place">): unknown => {
    const home = checked.homes.get(place.piece);
    if (home === undefined) return "nowhere";
    return [home.file.path, home.start + place.span.start, home.start + place.span.end];
  };
  return checked.files.map((file) => ({
    path: file.path,
    text: file.text,
    asked: file.asked,
    exercises: [...file.plan.exercises.keys()],
    records: file.plan.records.length,
    hasTerm: file.ground.around.hasTerm,
    mentioned: [...file.ground.around.mentioned].sort(),
    findings: file.findings.map((finding) => ({
      ...finding,
      place: placed(finding),
      related: finding.related.map((each) => [placed(each), each.message]),
    })),
  }));
}

const [AREA = "", EXERCISE = "", LEVEL = "", STUDENT = "", TERM = ""] = SMALL.split(/\n(?=\w)/).map(
  (part) => `${part}\n`,
);

/** A studio in files that use each other; what is found reaches from one into another. */
const STUDIO: Readonly<Record<string, string>> = {
  "/s/studio.practice": `studio {\n  finding unused-exercise warning\n}\n${AREA}`,
  "/s/book.practice": `${EXERCISE}${EXERCISE.replace("Fifths", "Sixths")}`,
  "/s/players.practice": `${LEVEL}${STUDENT}`,
  "/s/autumn.practice": `use "book.practice"\nuse "players.practice"\n${TERM}`,
  "/s/spring.practice": `use "book.practice"\nuse "players.practice"\n${TERM.replace("Autumn", "Spring").replace("twice", "20 times")}`,
  "/s/record.practice": 'use "autumn.practice"\nrecord of "Autumn" {\n  2026-09-08 "K. M." done\n}\n',
};
const PATHS = Object.keys(STUDIO);

/** One thing that happens to a workspace; `at` and `to` are shares of the text. */
type Event =
  | { readonly kind: "type"; readonly path: string; readonly at: number; readonly text: string }
  | { readonly kind: "delete"; readonly path: string; readonly at: number; readonly length: number }
  | { readonly kind: "move"; readonly path: string; readonly at: number; readonly to: number }
  | { readonly kind: "rename"; readonly from: string; readonly to: string }
  | { readonly kind: "remove" | "open" | "close" | "restore"; readonly path: string }
  | { readonly kind: "disk"; readonly path: string; readonly at: number; readonly text: string }
  | { readonly kind: "wait" | "ask" };

const path = fc.constantFrom(...PATHS, "/s/other.practice");
const share = fc.double({ min: 0, max: 1, noNaN: true });
const scrap = fc.constantFrom(
  ...'x|0|\n|}|{|"|C4 |twice|# |20 times|keys C up by half step to G|each day { upper at most 1 min }'.split(
    "|",
  ),
  EXERCISE,
  TERM,
  STUDENT,
  'use "book.practice"\n',
  'use "other.practice"\n',
  'term "X" for "Seniors" {\n',
  '\nlet session-minutes stand "so it is"\n',
);
const event: fc.Arbitrary<Event> = fc.oneof(
  { weight: 6, arbitrary: fc.record({ kind: fc.constant("type"), path, at: share, text: scrap }) },
  { weight: 3, arbitrary: fc.record({ kind: fc.constant("delete"), path, at: share, length: fc.nat(60) }) },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant("move"), path, at: share, to: share }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant("rename"), from: path, to: path }) },
  {
    weight: 3,
    arbitrary: fc.record({ kind: fc.constantFrom("remove", "open", "close", "restore"), path }),
  },
  { weight: 2, arbitrary: fc.record({ kind: fc.constant("disk"), path, at: share, text: scrap }) },
  { weight: 3, arbitrary: fc.record({ kind: fc.constantFrom("wait", "ask") }) },
);

/** A workspace and, beside it, the texts as they ought to be. */
class Trial {
  readonly disk = new Map<string, string>(Object.entries(STUDIO));
  readonly open = new Map<string, string>();

  constructor(
    private readonly workspace: Workspace,
    private readonly listener: Listener,
  ) {
    for (const [path, text] of this.disk) workspace.setDisk(path, text, true);
  }

  async happen(event: Event): Promise<void> {
    switch (event.kind) {
      case "type":
      case "delete":
      case "move": {
        const text = this.open.get(event.path) ?? this.disk.get(event.path) ?? "";
        this.edit(event.path, changedText(text, event));
        break;
      }
      case "rename": {
        const text = this.disk.get(event.from);
        if (text === undefined) break;
        this.disk.delete(event.from);
        this.workspace.removeDisk(event.from);
        this.write(event.to, text);
        break;
      }
      case "remove":
        this.disk.delete(event.path);
        this.workspace.removeDisk(event.path);
        break;
      case "restore":
        this.write(event.path, STUDIO[event.path] ?? "");
        break;
      case "open":
        this.edit(event.path, this.disk.get(event.path) ?? "");
        break;
      case "close":
        this.open.delete(event.path);
        this.workspace.close(event.path);
        break;
      case "disk": {
        const text = this.disk.get(event.path) ?? "";
        this.write(event.path, changedText(text, { ...event, kind: "type" }));
        break;
      }
      case "wait":
        await this.workspace.settled();
        break;
      case "ask":
        // Whatever is asked for half-way is part of the same state.
        for (const file of this.workspace.checked.files.slice(0, 2)) void file.findings;
        break;
    }
  }

  async expectFresh(): Promise<void> {
    await this.workspace.settled();
    expect(this.listener.failures).toEqual([]);
    const texts = new Map([...this.disk, ...this.open].sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)));
    const fresh = checkTexts(texts);
    expect(pictureOf(this.workspace.checked)).toEqual(pictureOf(fresh));
    for (const file of this.workspace.checked.files) {
      expect(this.listener.found.get(file.path)).toBe(file.findings);
    }
  }

  private edit(path: string, text: string): void {
    this.open.set(path, text);
    this.workspace.setOpen(path, text);
  }

  private write(path: string, text: string): void {
    this.disk.set(path, text);
    this.workspace.setDisk(path, text, true);
  }
}

function changedText(text: string, event: Extract<Event, { kind: "type" | "delete" | "move" }>): string {
  const at = Math.floor(text.length * event.at);
  switch (event.kind) {
    case "type":
      return text.slice(0, at) + event.text + text.slice(at);
    case "delete":
      return text.slice(0, at) + text.slice(at + event.length);
    case "move": {
      // A line is cut and pasted elsewhere.
      const start = text.lastIndexOf("\n", at - 1) + 1;
      const end = text.indexOf("\n", at) + 1 || text.length;
      const rest = text.slice(0, start) + text.slice(end);
      const to = rest.lastIndexOf("\n", Math.floor(rest.length * event.to)) + 1;
      return rest.slice(0, to) + text.slice(start, end) + rest.slice(to);
    }
  }
}

describe("whatever happens, the files are as if they had been read afresh", () => {
  test.each([
    ["in one go", 0],
    ["with a turn for others after every step", 1000],
  ])("%s", async (_how, step) => {
    await fc.assert(
      fc.asyncProperty(fc.array(event, { maxLength: 25 }), async (events) => {
        const made = workspace(step);
        const trial = new Trial(made.workspace, made.listener);
        for (const each of events) await trial.happen(each);
        await trial.expectFresh();
      }),
      { seed: 20260907, numRuns: step === 0 ? 250 : 120 },
    );
  });
});

describe("work", () => {
  test("that fails in a way nobody thought of is told of, and the next change is checked", async () => {
    const made = workspace();
    const broken = vi.spyOn(made.workspace, "checked", "get").mockImplementation(() => {
      throw new Error("the water key leaks");
    });
    made.workspace.setOpen("/a.practice", AREA);
    await made.workspace.settled();
    expect(made.listener.failures).toEqual([new Error("the water key leaks")]);
    broken.mockRestore();
    made.workspace.setOpen("/a.practice", `${AREA}${AREA}`);
    await made.workspace.settled();
    expect(made.listener.found.get("/a.practice")?.map(({ code }) => code)).toEqual(["duplicate-name"]);
  });

  test("is not begun for a text that the disk held already", async () => {
    const made = workspace();
    made.workspace.setDisk("/a.practice", AREA, true);
    await made.workspace.settled();
    made.workspace.setDisk("/a.practice", AREA, true);
    expect(made.workspace.isSettled).toBe(true);
    made.workspace.setDisk("/a.practice", `${AREA}${AREA}`, true);
    expect(made.workspace.isSettled).toBe(false);
  });

  test("waits while files are read in, and so does who waits for it", async () => {
    const made = workspace();
    let done = (): void => {};
    const reading = made.workspace.whilePaused(
      () =>
        new Promise<void>((resolve) => {
          done = resolve;
        }),
    );
    made.workspace.setDisk("/a.practice", AREA, true);
    let settled = false;
    const waiting = made.workspace.settled().then(() => {
      settled = true;
    });
    await new Promise((resolve) => setImmediate(resolve));
    expect([settled, made.workspace.isSettled, made.listener.order]).toEqual([false, false, []]);
    done();
    await reading;
    await waiting;
    expect(made.listener.order).toContain("/a.practice");
  });
});

test("nothing is checked while somebody waits for an answer, and everything afterwards", async () => {
  const listener = new Listener();
  const world = new World(0);
  let turns = 0;
  const asked = (): boolean => turns < 20;
  const shared = new Workspace(
    {
      now: world.now,
      turn: () => {
        if (asked()) expect(listener.order).toEqual([]);
        turns++;
        return world.turn();
      },
      isAsked: asked,
    },
    listener,
  );
  shared.setOpen("/s/small.practice", SMALL);
  await shared.settled();
  expect(turns).toBeGreaterThanOrEqual(20);
  expect(listener.order).toContain("/s/small.practice");
});
