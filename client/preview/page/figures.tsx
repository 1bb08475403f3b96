import type { FiguresView, PlaceView } from "../../../server/protocol/requests";

/** Charts, and under them the table of their numbers. */
export function Figures({
  figures: { charts, columns, rows },
  onGoTo,
}: {
  readonly figures: FiguresView;
  readonly onGoTo: (place: PlaceView) => void;
}) {
  return (
    <div class="figures">
      <div class="charts">
        {charts.map(({ title, svg }) => (
          <figure key={title} class="chart">
            <figcaption>{title}</figcaption>
            {/* The server's own drawing, every word in it escaped. */}
            <div dangerouslySetInnerHTML={{ __html: svg }} />
          </figure>
        ))}
      </div>
      <table>
        <thead>
          <tr>
            {columns.map((column) => (
              <th key={column} scope="col">
                {column}
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
                <td key={columns[index + 1]}>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
