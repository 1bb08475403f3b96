import type { MissingView, PlaceView } from "../../../server/protocol/requests";

/** What could not be read, each with the way to its place. */
export function Missing({
  missing,
  onGoTo,
}: {
  readonly missing: readonly MissingView[];
  readonly onGoTo: (place: PlaceView) => void;
}) {
  if (missing.length === 0) return null;
  return (
    <ul class="missing" aria-label="What is missing">
      {missing.map(({ text, place }) => (
        <li key={text}>
          {place === undefined ? (
            text
          ) : (
            <button type="button" class="link" onClick={() => onGoTo(place)}>
              {text}
            </button>
          )}
        </li>
      ))}
    </ul>
  );
}
