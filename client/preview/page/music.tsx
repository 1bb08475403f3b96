import { useEffect, useRef, useState } from "preact/hooks";
import type { PlaceParams, PlaceView, PreviewItem } from "../../../server/protocol/requests";
import type { PageAction } from "../messages";
import type { Choices, SoundChoices } from "./choices";
import type { Host } from "./host";
import { Listen } from "./listen";
import { Missing } from "./missing";
import { elementOf, Notation, placeOf, type Shelf, useNotation } from "./notation";
import type { Sounding } from "./sounding";

interface MusicProps {
  readonly host: Host;
  readonly shelf: Shelf;
  readonly item: PreviewItem;
  /** Its number on the page. */
  readonly number: number;
  /** The only one on the page; then the page's own heading names it. */
  readonly alone: boolean;
  readonly width: number;
  readonly choices: Choices;
  readonly cursor: PlaceParams | undefined;
  readonly round: number;
  readonly onForgotten: () => void;
  readonly onChooseSound: (sound: SoundChoices) => void;
  readonly stopOthers: (stop: () => void) => void;
  readonly onGoTo: (place: PlaceView) => void;
  /** Hears what is to be done with the first music of the page from outside. */
  readonly onActor: (act: ((action: PageAction) => void) | undefined) => void;
}

/** One exercise: what is asked of it, its notation, and what plays it. */
export function Music(props: MusicProps) {
  const { host, shelf, item, number, alone, width, choices, cursor, round, onForgotten } = props;
  const [where, setWhere] = useState<string>();
  const [listening, setListening] = useState(alone);
  const [sounding, setSounding] = useState<Sounding>();
  const section = useRef<HTMLElement>(null);
  const control = useRef<{ readonly play: () => void; readonly stop: () => void } | undefined>(undefined);
  const { music } = item;
  const view = useNotation(
    host,
    music === undefined ? undefined : { music, where, fingerings: choices.fingerings, width },
    round,
  );
  const name = `m${number}`;
  // What was chosen holds for the exercise it was chosen for.
  useEffect(() => {
    setWhere(undefined);
    setListening(alone);
  }, [item.name, alone]);
  const onActor = number === 0 ? props.onActor : undefined;
  useEffect(() => {
    onActor?.((action) => {
      switch (action.what) {
        case "play":
          setListening(true);
          control.current?.play();
          break;
        case "stop":
          control.current?.stop();
          break;
        case "click": {
          if (view === undefined) break;
          const element = elementOf(section.current, view, name, action.event);
          // Where its line is not drawn yet, the click would go nowhere.
          if (element !== null) element.dispatchEvent(new MouseEvent("click", { bubbles: true }));
          else {
            const place = placeOf(view, action.event);
            if (place !== undefined) props.onGoTo(place);
          }
        }
      }
    });
    return () => onActor?.(undefined);
  });

  const { place } = item;
  const heading = alone ? null : (
    <h2>
      {place === undefined ? (
        item.name
      ) : (
        <button type="button" class="link" onClick={() => props.onGoTo(place)}>
          {item.name}
        </button>
      )}
    </h2>
  );
  return (
    <section ref={section} class="music" aria-label={alone ? undefined : item.name}>
      {heading}
      <p class="asked">{[...item.asked, ...(item.without === "" ? [] : [item.without])].join(" · ")}</p>
      {item.aims.map((aim) => (
        <p key={aim} class="aim">
          {aim}
        </p>
      ))}
      {view === undefined ? null : (
        <>
          <div class="row">
            {view.keys.length === 0 ? null : (
              <label>
                {`${view.by} `}
                <select
                  value={where ?? ""}
                  onChange={({ currentTarget }) =>
                    setWhere(currentTarget.value === "" ? undefined : currentTarget.value)
                  }
                >
                  <option value="">as the text says</option>
                  {view.keys.map(({ id, name: words, lies }) => (
                    <option key={id} value={id}>
                      {lies === "" ? words : `${words}: ${lies}`}
                    </option>
                  ))}
                </select>
              </label>
            )}
            {alone || listening ? null : (
              <button type="button" class="quiet" onClick={() => setListening(true)}>
                {`Listen to “${item.name}”`}
              </button>
            )}
          </div>
          {listening && music !== undefined && view.tempo !== undefined ? (
            <Listen
              host={host}
              music={music}
              where={where}
              tempo={view.tempo}
              choices={choices.sound}
              onChoose={props.onChooseSound}
              onSounding={setSounding}
              stopOthers={props.stopOthers}
              onControl={(given) => {
                control.current = given;
              }}
            />
          ) : null}
          {alone ? null : <Missing missing={view.missing} onGoTo={props.onGoTo} />}
          {view.pictures.length === 0 ? (
            <p class="trouble">There are no notes to show yet.</p>
          ) : (
            <Notation
              host={host}
              shelf={shelf}
              name={name}
              view={view}
              cursor={cursor}
              sounding={sounding}
              onForgotten={onForgotten}
              onDrawn={(pictures, notes) => {
                if (number === 0) host.tell({ what: "notation", title: view.title, pictures, notes });
              }}
              onMarked={(events) => {
                if (number === 0) host.tell({ what: "marked", events });
              }}
            />
          )}
          {view.legend.length === 0 ? null : (
            <ul class="legend" aria-label="Marks">
              {view.legend.map(({ mark, sign, words }) => (
                <li key={mark}>
                  <span
                    class={`mark ${mark}`}
                    // The server's own drawing.
                    dangerouslySetInnerHTML={{ __html: sign }}
                  />
                  {words}
                </li>
              ))}
            </ul>
          )}
        </>
      )}
    </section>
  );
}
