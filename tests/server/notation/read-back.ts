import { SaxesParser } from "saxes";

/** What another program would take from a MusicXML file of one part, moments in quarters. */
export interface ReadBack {
  readonly title: string;
  readonly divisions: number;
  readonly transpose: { readonly diatonic: number; readonly chromatic: number } | undefined;
  readonly tempo: number | undefined;
  readonly bars: readonly ReadBar[];
}

export interface ReadBar {
  readonly fifths: number | undefined;
  readonly mode: string | undefined;
  readonly meter: string | undefined;
  readonly newSystem: boolean;
  readonly forward: boolean;
  readonly backward: boolean;
  readonly endings: readonly string[];
  readonly events: readonly ReadEvent[];
  readonly words: readonly string[];
  readonly quarters: number;
}

export interface ReadEvent {
  /** `F#4`, or `rest`. */
  readonly pitch: string;
  readonly onset: number;
  readonly duration: number;
  readonly type: string;
  readonly dots: number;
  readonly tieStart: boolean;
  readonly tieStop: boolean;
  readonly slurs: readonly string[];
  readonly tuplet: string | undefined;
  readonly brackets: readonly string[];
  readonly beams: readonly string[];
  readonly marks: readonly string[];
  readonly accidental: string | undefined;
  readonly lyrics: readonly string[];
  readonly fingering: string | undefined;
  /** Dynamics and hairpins that stand before it. */
  readonly before: readonly string[];
}

interface Tag {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: Tag[];
  text: string;
}

/** Reads MusicXML text, knowing nothing of how it was written. */
export function readBack(xml: string): ReadBack {
  const root = treeOf(xml);
  const part = only(root, "part");
  let divisions = 1;
  let tempo: number | undefined;
  let transpose: ReadBack["transpose"];
  const bars = all(part, "measure").map((measure): ReadBar => {
    let at = 0;
    let before: string[] = [];
    const events: ReadEvent[] = [];
    const bar: { -readonly [K in keyof ReadBar]: ReadBar[K] } = {
      fifths: undefined,
      mode: undefined,
      meter: undefined,
      newSystem: false,
      forward: false,
      backward: false,
      endings: [],
      events,
      words: [],
      quarters: 0,
    };
    for (const child of measure.children) {
      switch (child.name) {
        case "print":
          bar.newSystem = child.attributes["new-system"] === "yes";
          break;
        case "attributes": {
          divisions = Number(text(child, "divisions") ?? divisions);
          const key = first(child, "key");
          if (key !== undefined) {
            bar.fifths = Number(text(key, "fifths"));
            bar.mode = text(key, "mode");
          }
          const time = first(child, "time");
          if (time !== undefined) {
            bar.meter =
              first(time, "senza-misura") === undefined
                ? `${text(time, "beats")}/${text(time, "beat-type")}`
                : "free";
          }
          const moved = first(child, "transpose");
          if (moved !== undefined) {
            transpose = {
              diatonic: Number(text(moved, "diatonic")),
              chromatic: Number(text(moved, "chromatic")),
            };
          }
          break;
        }
        case "direction": {
          for (const type of all(child, "direction-type").flatMap((each) => each.children)) {
            if (type.name === "words") bar.words = [...bar.words, type.text];
            if (type.name === "dynamics") before.push(type.children[0]?.name ?? "?");
            if (type.name === "wedge") before.push(`${type.attributes["type"]} wedge`);
          }
          const sound = first(child, "sound")?.attributes["tempo"];
          if (sound !== undefined) tempo ??= Number(sound);
          break;
        }
        case "sound":
          break;
        case "barline": {
          const ending = first(child, "ending");
          if (ending !== undefined)
            bar.endings = [...bar.endings, `${ending.attributes["number"]} ${ending.attributes["type"]}`];
          const direction = first(child, "repeat")?.attributes["direction"];
          if (direction === "forward") bar.forward = true;
          if (direction === "backward") bar.backward = true;
          break;
        }
        case "note": {
          const duration = Number(text(child, "duration")) / divisions;
          events.push(eventOf(child, at, duration, before));
          before = [];
          at += duration;
          break;
        }
        default:
          throw new Error(`an unexpected <${child.name}>`);
      }
    }
    bar.quarters = at;
    return bar;
  });
  return { title: text(only(root, "work"), "work-title") ?? "", divisions, transpose, tempo, bars };
}

function eventOf(note: Tag, onset: number, duration: number, before: readonly string[]): ReadEvent {
  const pitch = first(note, "pitch");
  const alter = Number((pitch === undefined ? undefined : text(pitch, "alter")) ?? 0);
  const modification = first(note, "time-modification");
  const notations = first(note, "notations");
  const under = (name: string): readonly Tag[] =>
    notations === undefined ? [] : (first(notations, name)?.children ?? []);
  const typed = (name: string): readonly string[] =>
    notations === undefined ? [] : all(notations, name).map((each) => each.attributes["type"] ?? "");
  const ties = all(note, "tie").map((each) => each.attributes["type"]);
  return {
    pitch:
      pitch === undefined
        ? "rest"
        : `${text(pitch, "step")}${["bb", "b", "", "#", "##"][alter + 2]}${text(pitch, "octave")}`,
    onset,
    duration,
    type: text(note, "type") ?? "whole bar",
    dots: all(note, "dot").length,
    tieStart: ties.includes("start"),
    tieStop: ties.includes("stop"),
    slurs: typed("slur"),
    tuplet:
      modification === undefined
        ? undefined
        : `${text(modification, "actual-notes")}:${text(modification, "normal-notes")}`,
    brackets: typed("tuplet"),
    beams: all(note, "beam").map((each) => each.text),
    marks: [
      ...under("ornaments"),
      ...under("technical").filter((each) => each.name !== "fingering"),
      ...under("articulations"),
      ...(notations === undefined ? [] : all(notations, "fermata")),
    ].map((each) => each.name),
    accidental: text(note, "accidental"),
    lyrics: all(note, "lyric").map((each) => text(each, "text") ?? ""),
    fingering: under("technical").find((each) => each.name === "fingering")?.text,
    before,
  };
}

function treeOf(xml: string): Tag {
  const parser = new SaxesParser();
  const open: Tag[] = [{ name: "", attributes: {}, children: [], text: "" }];
  parser.on("error", (error) => {
    throw error;
  });
  parser.on("opentag", (tag) => {
    const attributes = Object.fromEntries(
      Object.entries(tag.attributes).map(([name, value]) => [name, String(value)]),
    );
    const child: Tag = { name: tag.name, attributes, children: [], text: "" };
    open.at(-1)?.children.push(child);
    open.push(child);
  });
  parser.on("text", (words) => {
    const tag = open.at(-1);
    if (tag !== undefined) tag.text += words;
  });
  parser.on("closetag", () => {
    open.pop();
  });
  parser.write(xml).close();
  const root = open[0]?.children[0];
  if (root === undefined) throw new Error("no root element");
  return root;
}

function all(tag: Tag, name: string): readonly Tag[] {
  return tag.children.filter((child) => child.name === name);
}

function first(tag: Tag, name: string): Tag | undefined {
  return tag.children.find((child) => child.name === name);
}

function only(tag: Tag, name: string): Tag {
  const found = all(tag, name);
  if (found.length !== 1 || found[0] === undefined) throw new Error(`not one <${name}> but ${found.length}`);
  return found[0];
}

function text(tag: Tag, name: string): string | undefined {
  return first(tag, name)?.text;
}
