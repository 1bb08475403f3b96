import { useEffect, useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import {
  NOTATION_REQUEST,
  type NotationParams,
  type NotationView,
  PICTURE_REQUEST,
  type PictureResult,
  type PictureResultView,
  type PictureView,
  type PlaceParams,
  type PlaceView,
} from "../../../server/protocol/requests";
import type { Host } from "./host";
import { markedSvg } from "./marked-svg";
import type { Sounding } from "./sounding";

/** Pictures that were seen, by their names. */
export type Shelf = Map<string, PictureResultView>;

/** Pictures on the shelf, at most; what was seen longest ago goes first. */
const MOST_ON_SHELF = 400;

/** Asks for the notation of some music whenever what is asked changes; what was there last stays until then. */
export function useNotation(
  host: Host,
  params: NotationParams | undefined,
  round: number,
): NotationView | undefined {
  const [view, setView] = useState<NotationView>();
  const asked = params === undefined ? "" : JSON.stringify(params);
  // The text of the question stands for it, and a new round asks it again.
  useEffect(() => {
    if (params === undefined) {
      setView(undefined);
      return;
    }
    const stale = new AbortController();
    void host.ask<NotationView>(NOTATION_REQUEST, params, stale.signal).then((result) => {
      if (result !== null && !stale.signal.aborted) setView(result);
    });
    return () => stale.abort();
  }, [asked, round]);
  return view;
}

interface NotationProps {
  readonly host: Host;
  readonly shelf: Shelf;
  /** Makes the names in this notation its own on the page. */
  readonly name: string;
  readonly view: NotationView;
  readonly cursor: PlaceParams | undefined;
  readonly sounding: Sounding | undefined;
  readonly onForgotten: () => void;
  readonly onDrawn: (pictures: number, notes: readonly string[]) => void;
  readonly onMarked: (events: readonly number[]) => void;
}

/** Lines of music, one under the other, their notes to be pointed at, clicked and gone through by keys. */
export function Notation({
  host,
  shelf,
  name,
  view,
  cursor,
  sounding,
  onForgotten,
  onDrawn,
  onMarked,
}: NotationProps) {
  const list = useRef<HTMLDivElement>(null);
  const [active, setActive] = useState<string>();
  const [drawn, setDrawn] = useState(0);
  const here = useMemo(() => eventsAt(view, cursor), [view, cursor]);
  const marked = here.join(" ");

  // Classes go onto what is there, so that no picture is drawn again for them.
  // Pictures that came since need their marks too.
  useLayoutEffect(() => mark(list.current, view, name, here, ["here"]), [marked, drawn, view, name]);
  useEffect(() => onMarked(here), [marked, view]);
  const step = sounding?.step;
  useLayoutEffect(() => {
    mark(list.current, view, name, step === undefined ? [] : [step.event], [
      "now",
      ...(step?.yours ? ["yours"] : []),
    ]);
    if (step !== undefined) show(elementOf(list.current, view, name, step.event));
  }, [step, drawn, view, name]);
  // Told once for all pictures that are there.
  useEffect(() => {
    const there = view.pictures.map((picture) => shelf.get(picture.name));
    const notes = there.flatMap((picture) => picture?.notes.map(({ words }) => words) ?? []);
    if (there[0] !== undefined) onDrawn(there.filter((picture) => picture !== undefined).length, notes);
  }, [drawn, view]);

  const goTo = (event: number): void => {
    const place = placeOf(view, event);
    if (place !== undefined) host.send({ kind: "goTo", place });
  };
  const options = (): readonly Element[] => [...(list.current?.querySelectorAll("g.note") ?? [])];
  const choose = (element: Element | undefined): void => {
    list.current?.querySelector("g.note[aria-selected=true]")?.setAttribute("aria-selected", "false");
    element?.setAttribute("aria-selected", "true");
    setActive(element?.id);
    if (element !== undefined) show(element);
  };
  const onKey = (event: KeyboardEvent): void => {
    const all = options();
    const at = all.findIndex(({ id }) => id === active);
    const to = stepTo(event.key, at, all.length);
    if (to !== undefined) choose(all[to]);
    else if (event.key === "Enter" && at >= 0) {
      const number = numberOf(all[at], view, name);
      if (number !== undefined) goTo(number);
    } else return;
    event.preventDefault();
  };
  const onClick = ({ target }: MouseEvent): void => {
    const group = target instanceof Element ? target.closest("g.note, g.rest") : null;
    const number = group === null ? undefined : numberOf(group, view, name);
    if (number !== undefined) goTo(number);
  };

  return (
    <div
      ref={list}
      class="notation"
      role="listbox"
      tabIndex={0}
      aria-label={`${view.title}: arrow keys go from note to note, Enter goes to the text`}
      aria-activedescendant={active}
      onKeyDown={onKey}
      onClick={onClick}
    >
      {view.pictures.map((picture, index) => (
        <Picture
          // Lines keep their places, so that one that changed is seen as it was until its new picture is there.
          // The place is what it is.
          key={index}
          host={host}
          shelf={shelf}
          prefix={prefixOf(name, index)}
          picture={picture}
          onDrawn={() => setDrawn((before) => before + 1)}
          onForgotten={onForgotten}
        />
      ))}
    </div>
  );
}

interface PictureProps {
  readonly host: Host;
  readonly shelf: Shelf;
  readonly prefix: string;
  readonly picture: PictureView;
  readonly onDrawn: () => void;
  readonly onForgotten: () => void;
}

/** One line of music. It is asked for when it comes near the window. */
function Picture({ host, shelf, prefix, picture, onDrawn, onForgotten }: PictureProps) {
  const box = useRef<HTMLDivElement>(null);
  const [near, setNear] = useState(false);
  const [trouble, setTrouble] = useState("");
  const known = shelf.get(picture.name);
  const last = useRef<{ readonly name: string; readonly svg: string } | undefined>(undefined);
  const [, setRound] = useState(0);
  if (known !== undefined && last.current?.name !== prefix + picture.name) {
    last.current = { name: prefix + picture.name, svg: markedSvg(known, prefix) };
  }
  useEffect(() => {
    const element = box.current;
    if (element === null) return;
    const watching = new IntersectionObserver(
      (entries) => {
        if (entries.some((entry) => entry.isIntersecting)) {
          setNear(true);
          watching.disconnect();
        }
      },
      { rootMargin: "500px 0px" },
    );
    watching.observe(element);
    return () => watching.disconnect();
  }, []);
  // The name stands for the picture.
  useEffect(() => {
    setTrouble("");
    if (known !== undefined) {
      onDrawn();
      return;
    }
    if (!near) return;
    const stale = new AbortController();
    void host
      .ask<NonNullable<PictureResult>>(PICTURE_REQUEST, { name: picture.name }, stale.signal)
      .then((result) => {
        if (result === null || stale.signal.aborted) return;
        if ("trouble" in result) {
          if (result.unknown) onForgotten();
          else setTrouble(result.trouble);
          return;
        }
        shelf.set(picture.name, result);
        for (const oldest of shelf.keys()) {
          if (shelf.size <= MOST_ON_SHELF) break;
          shelf.delete(oldest);
        }
        setRound((before) => before + 1);
        onDrawn();
      });
    return () => stale.abort();
  }, [picture.name, near]);
  if (trouble !== "") return <p class="trouble">{trouble}</p>;
  const svg = last.current?.svg ?? "";
  return (
    <div
      ref={box}
      class={svg === "" ? "picture waiting" : "picture"}
      role="presentation"
      // The server's own drawing, every word in it escaped, under a policy that runs nothing of it.
      dangerouslySetInnerHTML={{ __html: svg }}
    />
  );
}

function prefixOf(name: string, index: number): string {
  return `${name}-${index}-`;
}

/** The numbers of the events at which the cursor stands in the text. */
function eventsAt({ uri, pictures }: NotationView, cursor: PlaceParams | undefined): readonly number[] {
  if (cursor === undefined || cursor.uri !== uri) return [];
  const { line, character } = cursor.position;
  const found: number[] = [];
  const ending: number[] = [];
  for (const { first, places } of pictures) {
    for (let at = 0; at < places.length; at += 4) {
      const [fromLine = 0, from = 0, toLine = 0, to = 0] = places.slice(at, at + 4);
      const begun = line > fromLine || (line === fromLine && character >= from);
      if (!begun) continue;
      if (line < toLine || (line === toLine && character < to)) found.push(first + at / 4);
      else if (line === toLine && character === to) ending.push(first + at / 4);
    }
  }
  // Between two notes the one that begins is meant, at the end of the last the last.
  return found.length > 0 ? found : ending;
}

/** Where an event stands in the text. */
export function placeOf({ uri, pictures }: NotationView, event: number): PlaceView | undefined {
  const picture = pictures.findLast(({ first }) => first <= event);
  if (picture === undefined || uri === undefined) return undefined;
  const at = (event - picture.first) * 4;
  const [line, character, endLine, endCharacter] = picture.places.slice(at, at + 4);
  if (line === undefined || character === undefined || endLine === undefined || endCharacter === undefined) {
    return undefined;
  }
  return { uri, range: { start: { line, character }, end: { line: endLine, character: endCharacter } } };
}

/** The group of an event, where its picture is there. */
export function elementOf(
  list: HTMLElement | null,
  { pictures }: NotationView,
  name: string,
  event: number,
): Element | null {
  const index = pictures.findLastIndex(({ first }) => first <= event);
  const picture = pictures[index];
  if (list === null || picture === undefined) return null;
  return list.querySelector(`#${CSS.escape(`${prefixOf(name, index)}e${event - picture.first}`)}`);
}

function numberOf(group: Element | undefined, { pictures }: NotationView, name: string): number | undefined {
  const match = /-(\d+)-e(\d+)$/.exec(group?.id ?? "");
  if (match === null || group?.id.startsWith(`${name}-`) !== true) return undefined;
  const picture = pictures[Number(match[1])];
  return picture === undefined ? undefined : picture.first + Number(match[2]);
}

function mark(
  list: HTMLElement | null,
  view: NotationView,
  name: string,
  events: readonly number[],
  classes: readonly string[],
): void {
  const [main = ""] = classes;
  for (const element of list?.querySelectorAll(`.${main}`) ?? []) element.classList.remove(main, "yours");
  for (const event of events) elementOf(list, view, name, event)?.classList.add(...classes);
}

/** Brings something into sight, at once where a person wants less motion. */
function show(element: Element | null): void {
  const still =
    matchMedia("(prefers-reduced-motion: reduce)").matches ||
    document.body.classList.contains("vscode-reduce-motion");
  element
    ?.closest(".picture")
    ?.scrollIntoView({ block: "nearest", inline: "nearest", behavior: still ? "instant" : "smooth" });
}

function stepTo(key: string, at: number, length: number): number | undefined {
  if (length === 0) return undefined;
  switch (key) {
    case "ArrowRight":
    case "ArrowDown":
      return Math.min(at + 1, length - 1);
    case "ArrowLeft":
    case "ArrowUp":
      return Math.max(at - 1, 0);
    case "Home":
      return 0;
    case "End":
      return length - 1;
    default:
      return undefined;
  }
}
