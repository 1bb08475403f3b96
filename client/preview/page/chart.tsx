import type { ChartView, PlaceView } from "../../../server/protocol/requests";

/** A chart with the table of its numbers beside. */
export function Chart({
  chart: { title, svg, columns, rows },
  onGoTo,
}: {
  readonly chart: ChartView;
  readonly onGoTo: (place: PlaceView) => void;
}) {
  return (
    <figure class="chart">
      <figcaption>{title}</figcaption>
      <div class="beside">
        {svg === "" ? null : (
          // The server's own drawing, every word in it escaped.
          <div class="drawing" dangerouslySetInnerHTML={{ __html: svg }} />
        )}
        <table>
          <thead>
            <tr>
              {columns.map((column, index) => (
                // A column is its place.
                <th key={index} scope="col">
                  {column === "" ? <span class="unseen">Of what</span> : column}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ cells: [first = "", ...others], place }) => (
              <tr key={first}>
                <th scope="row">
                  {place === undefined ? (
                    first
                  ) : (
                    <button type="button" class="link" onClick={() => onGoTo(place)}>
                      {first}
                    </button>
                  )}
                </th>
                {others.map((cell, index) => (
                  // A column is its place.
                  <td key={index}>{cell}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </figure>
  );
}
