import { useCallback, useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import {
  type PlaceParams,
  type PlaceView,
  PREVIEW_REQUEST,
  type PreviewView,
} from "../../../server/protocol/requests";
import type { PageAction, ToPage } from "../messages";
import { type Choices, choicesFrom } from "./choices";
import { Figures } from "./figures";
import type { Host } from "./host";
import { Missing } from "./missing";
import { Music } from "./music";
import type { Shelf } from "./notation";

/** What the page hears from outside, until it is shown no more. */
export type Hearing = (hear: (message: Exclude<ToPage, { kind: "answer" }>) => void) => void;

/** Widths are taken in steps of so many pixels, so that drawing a border draws music anew only now and then. */
const WIDTH_STEP = 40;

/** Everything that is shown. What was there last stays until what comes next is there. */
export function App({ host, hearing }: { readonly host: Host; readonly hearing: Hearing }) {
  const [view, setView] = useState<PreviewView>();
  const [cursor, setCursor] = useState<PlaceParams>();
  const [choices, setChoices] = useState<Choices>(() => choicesFrom(host.state));
  const [width, setWidth] = useState(0);
  const [round, setRound] = useState(0);
  const shelf = useRef<Shelf>(new Map()).current;
  const page = useRef<HTMLDivElement>(null);
  const asking = useRef<AbortController | undefined>(undefined);
  const shown = useRef<PlaceParams | undefined>(undefined);
  const stopLast = useRef<(() => void) | undefined>(undefined);
  const actor = useRef<((action: PageAction) => void) | undefined>(undefined);
  const pending = useRef<PageAction[]>([]);

  const choose = (changed: Partial<Choices>): void => {
    const next = { ...choices, ...changed };
    setChoices(next);
    host.state = next;
  };

  const ask = useCallback(
    (place: PlaceParams, player: string | undefined, week: number | undefined): void => {
      asking.current?.abort();
      const stale = new AbortController();
      asking.current = stale;
      void host.ask<PreviewView>(PREVIEW_REQUEST, { ...place, player, week }, stale.signal).then((result) => {
        if (result === null || stale.signal.aborted) return;
        shown.current = place;
        setView((before) => (JSON.stringify(before) === JSON.stringify(result) ? before : result));
        host.tell({
          what: "shown",
          view: { kind: result.kind, title: result.title, player: result.player, missing: result.missing },
        });
      });
    },
    [host],
  );

  hearing((message) => {
    switch (message.kind) {
      case "place":
        setCursor(message.place);
        // Held, it shows the same place of a text that may have changed.
        // A week that was chosen holds while the cursor stays among its weeks; elsewhere it means nothing.
        ask(choices.follow ? message.place : (shown.current ?? message.place), choices.player, view?.week);
        setRound((before) => before + 1);
        break;
      case "forget":
        shelf.clear();
        setRound((before) => before + 1);
        break;
      case "do":
        if (actor.current === undefined) pending.current.push(message.action);
        else actor.current(message.action);
        break;
    }
  });

  useLayoutEffect(() => {
    const element = page.current;
    if (element === null) return;
    const measure = (): void => {
      setWidth(Math.max(WIDTH_STEP, Math.floor(element.clientWidth / WIDTH_STEP) * WIDTH_STEP));
    };
    measure();
    const watching = new ResizeObserver(measure);
    watching.observe(element);
    return () => watching.disconnect();
  }, []);
  useEffect(() => host.ready(), [host]);

  const goTo = useCallback((place: PlaceView): void => host.send({ kind: "goTo", place }), [host]);
  const setActor = useCallback((act: ((action: PageAction) => void) | undefined): void => {
    actor.current = act;
    if (act !== undefined) for (const action of pending.current.splice(0)) act(action);
  }, []);

  if (view === undefined) {
    return (
      <div ref={page} class="page">
        <h1>Music</h1>
        <p class="aim">
          Put the cursor into an exercise, on its line in a session, or into a day or a week of a term, and it
          is shown here.
        </p>
      </div>
    );
  }
  const { place } = view;
  const alone = view.kind === "exercise";
  return (
    <div ref={page} class="page">
      <header>
        <h1>
          {place === undefined ? (
            view.title
          ) : (
            <button type="button" class="link" onClick={() => goTo(place)}>
              {view.title}
            </button>
          )}
        </h1>
        {view.under.length === 0 ? null : <p class="under">{view.under.join(" · ")}</p>}
        <div class="row choices">
          {view.players.length < 2 ? null : (
            <label>
              For{" "}
              <select
                value={view.player ?? ""}
                onChange={({ currentTarget }) => {
                  choose({ player: currentTarget.value });
                  if (shown.current !== undefined) ask(shown.current, currentTarget.value, view.week);
                }}
              >
                {view.players.map((player) => (
                  <option key={player} value={player}>
                    {player}
                  </option>
                ))}
              </select>
            </label>
          )}
          {view.weeks.length < 2 ? null : (
            <label>
              Week{" "}
              <select
                value={view.week}
                onChange={({ currentTarget }) => {
                  if (shown.current !== undefined)
                    ask(shown.current, choices.player, Number(currentTarget.value));
                }}
              >
                {view.weeks.map((week) => (
                  <option key={week} value={week}>
                    {week}
                  </option>
                ))}
              </select>
            </label>
          )}
          {view.items.every(({ music }) => music === undefined) ? null : (
            <label class="toggle">
              <input
                type="checkbox"
                checked={choices.fingerings}
                onChange={({ currentTarget }) => choose({ fingerings: currentTarget.checked })}
              />
              Fingerings
            </label>
          )}
          <label class="toggle">
            <input
              type="checkbox"
              checked={choices.follow}
              onChange={({ currentTarget }) => {
                choose({ follow: currentTarget.checked });
                if (currentTarget.checked && cursor !== undefined) ask(cursor, choices.player, undefined);
              }}
            />
            Go along with the cursor
          </label>
        </div>
      </header>
      <Missing missing={view.missing} onGoTo={goTo} />
      {view.figures === undefined ? null : <Figures figures={view.figures} onGoTo={goTo} />}
      {width === 0
        ? null
        : view.items.map((item, number) => (
            <Music
              key={alone ? "alone" : item.id}
              host={host}
              shelf={shelf}
              item={item}
              number={number}
              alone={alone}
              width={width}
              choices={choices}
              cursor={cursor}
              round={round}
              onForgotten={() => setRound((before) => before + 1)}
              onChooseSound={(sound) => choose({ sound })}
              stopOthers={(stop) => {
                if (stopLast.current !== stop) stopLast.current?.();
                stopLast.current = stop;
              }}
              onGoTo={goTo}
              onActor={setActor}
            />
          ))}
    </div>
  );
}
