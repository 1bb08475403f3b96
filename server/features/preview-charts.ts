import type { Day, PlayerTerm } from "../days/day";
import { type Column, EDITOR_COLOURS, figureChart } from "../pages/figure-chart";
import type { ChartView, FigureView, PlaceView } from "../protocol/requests";
import { list } from "../rules/words";
import type { Checked } from "../workspace/check-sources";
import { dayView } from "./day-view";
import type { Places } from "./lines-of";
import { termViewFor } from "./term-view";

/** What charts need to say where their rows lead. */
interface Ground {
  readonly checked: Checked;
  readonly places: Places;
}

const NAMES: Readonly<Record<FigureView["name"], string>> = {
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

/** The figures of one day, against what is allowed. */
export function dayCharts({ checked, places }: Ground, term: PlayerTerm, day: Day): readonly ChartView[] {
  const view = dayView([{ term, day }], checked.homes, places);
  if (view === undefined || view.figures.length === 0) return [];
  const columns = view.figures.map(({ name, share, standing }) => ({
    label: SHORT_NAMES[name],
    share,
    over: standing === "over",
  }));
  const title = `${view.label} against what is allowed`;
  return [
    {
      title,
      svg: chart(title, columns),
      columns: ["", "of at most"],
      rows: view.figures.map(({ name, text }) => ({ cells: [NAMES[name], text], place: view.place })),
    },
  ];
}

/** The days of a taught week, a chart for each figure. */
export function weekCharts(ground: Ground, term: PlayerTerm, week: number): readonly ChartView[] {
  const view = termViewFor(ground.checked, term.term, [term], ground.places);
  const found = view.weeks.find(({ label }) => label === `Week ${week}`);
  if (found === undefined) return [];
  const days = found.days.map(({ label, figures, place }) => ({
    label,
    short: label.slice(0, 2),
    figures,
    place,
  }));
  // The week's own sums stand beside its days.
  return chartsOf([...days, { label: "The week", short: "all", figures: found.figures, place: found.place }]);
}

/** The taught weeks of a term, a chart for each figure. */
export function termCharts(ground: Ground, term: PlayerTerm): readonly ChartView[] {
  const view = termViewFor(ground.checked, term.term, [term], ground.places);
  return chartsOf(
    view.weeks
      .filter(({ figures }) => figures.length > 0)
      .map(({ label, figures, place, dates }) => ({
        label: `${label}, ${dates}`,
        short: label.replace("Week ", ""),
        figures,
        place,
      })),
  );
}

function chartsOf(all: readonly Charted[]): readonly ChartView[] {
  return (["clock", "playing", "upper"] as const).flatMap((name) => {
    const figures = all.map((each) => each.figures.find((figure) => figure.name === name));
    if (figures.every((figure) => figure === undefined)) return [];
    const columns = all.map(({ short }, index) => ({
      label: short,
      share: figures[index]?.share,
      over: figures[index]?.standing === "over",
    }));
    return [
      {
        title: NAMES[name],
        svg: chart(NAMES[name], columns),
        columns: ["", NAMES[name]],
        rows: all.map(({ label, place }, index) => ({ cells: [label, figures[index]?.text ?? "–"], place })),
      },
    ];
  });
}

function chart(title: string, columns: readonly Column[]): string {
  if (columns.every(({ share }) => share === undefined)) return "";
  const over = columns.filter((each) => each.over).map(({ label }) => label);
  const description =
    over.length === 0
      ? "Nothing is over what is allowed. The numbers stand in the table."
      : `Over what is allowed: ${list(over, 8)}. The numbers stand in the table.`;
  return figureChart(title, description, columns, EDITOR_COLOURS);
}
