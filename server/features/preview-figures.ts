import type { Day, PlayerTerm } from "../days/day";
import { type Column, EDITOR_COLOURS, figureChart } from "../pages/figure-chart";
import type { FiguresView, FigureView, PlaceView } from "../protocol/requests";
import { list } from "../rules/words";
import type { Checked } from "../workspace/check-sources";
import { dayView } from "./day-view";
import type { Places } from "./lines-of";
import { termViewFor } from "./term-view";

/** What figures need to say where their rows lead. */
interface Ground {
  readonly checked: Checked;
  readonly places: Places;
}

type Name = FigureView["name"];

const NAMES: Readonly<Record<Name, string>> = {
  clock: "Clock",
  playing: "Playing",
  upper: "Upper register",
  stretch: "Longest stretch",
};

const SHORT_NAMES: typeof NAMES = { clock: "Clock", playing: "Playing", upper: "Upper", stretch: "Stretch" };

/** Something whose figures stand in a column: a day, a week. */
interface Charted {
  readonly label: string;
  /** The same, as short as it must be under a column. */
  readonly short: string;
  readonly figures: readonly FigureView[];
  readonly place: PlaceView | undefined;
}

/** The figures of one day in one chart; undefined for a day on which nothing is asked. */
export function dayFigures({ checked, places }: Ground, term: PlayerTerm, day: Day): FiguresView | undefined {
  const view = dayView([{ term, day }], checked.homes, places);
  if (view === undefined || view.figures.length === 0) return undefined;
  const columns = view.figures.map(({ name, share, standing }) => ({
    label: SHORT_NAMES[name],
    share,
    over: standing === "over",
  }));
  const title = `${view.label}, against what is allowed`;
  return {
    charts: charted(title, columns),
    columns: ["Of the day", "Of what is allowed"],
    rows: view.figures.map(({ name, text }) => ({ cells: [NAMES[name], text], place: undefined })),
  };
}

/** The days of a taught week, and the week itself, with a chart for each figure. */
export function weekFigures(ground: Ground, term: PlayerTerm, week: number): FiguresView | undefined {
  const view = termViewFor(ground.checked, term.term, [term], ground.places);
  const found = view.weeks.find(({ label }) => label === `Week ${week}`);
  if (found === undefined) return undefined;
  const days = found.days.map(({ label, figures, place }) => ({
    label,
    short: label.slice(0, 2),
    figures,
    place,
  }));
  // The week's own sums stand beside its days.
  const sums = { label: "The week", short: "week", figures: found.figures, place: found.place };
  return figuresOf("Day", [...days, sums]);
}

/** The taught weeks of a term, with a chart for each figure. */
export function termFigures(ground: Ground, term: PlayerTerm): FiguresView | undefined {
  const view = termViewFor(ground.checked, term.term, [term], ground.places);
  const weeks = view.weeks.flatMap(({ figures, label, dates, place }) =>
    figures.length === 0
      ? []
      : [{ label: `${label}, ${dates}`, short: label.replace("Week ", ""), figures, place }],
  );
  return figuresOf("Week", weeks);
}

function figuresOf(what: string, all: readonly Charted[]): FiguresView | undefined {
  const figureOf = ({ figures }: Charted, name: Name): FigureView | undefined =>
    figures.find((figure) => figure.name === name);
  const names = (["clock", "playing", "upper"] as const).filter((name) =>
    all.some((each) => figureOf(each, name) !== undefined),
  );
  if (names.length === 0) return undefined;
  return {
    charts: names.flatMap((name) =>
      charted(
        NAMES[name],
        all.map((each) => {
          const figure = figureOf(each, name);
          return { label: each.short, share: figure?.share, over: figure?.standing === "over" };
        }),
      ),
    ),
    columns: [what, ...names.map((name) => NAMES[name])],
    rows: all.map((each) => ({
      cells: [each.label, ...names.map((name) => figureOf(each, name)?.text ?? "–")],
      place: each.place,
    })),
  };
}

/** One chart; none where nothing is limited, so that there is nothing to hold the figures against. */
function charted(title: string, columns: readonly Column[]): FiguresView["charts"] {
  if (columns.every(({ share }) => share === undefined)) return [];
  const over = columns.filter((each) => each.over).map(({ label }) => label);
  const description =
    over.length === 0
      ? "Nothing is over what is allowed. The numbers stand in the table."
      : `Over what is allowed: ${list(over, 8)}. The numbers stand in the table.`;
  return [{ title, svg: figureChart(title, description, columns, EDITOR_COLOURS) }];
}
