import { widthOf } from "./safe-text";

export interface Column {
  readonly title: string;
  /** Figures stand to the right. */
  readonly figures: boolean;
}

/** Rows set in columns; empty columns are left out. */
export function tableText(columns: readonly Column[], rows: readonly (readonly string[])[]): string {
  const shown = columns
    .map((column, at) => ({ column, at }))
    .filter(({ at }) => rows.some((row) => row[at] !== ""));
  const widths = shown.map(({ column, at }) =>
    Math.max(widthOf(column.title), ...rows.map((row) => widthOf(row[at] ?? ""))),
  );
  const line = (cells: readonly string[]): string =>
    cells
      .map((cell, i) => {
        const pad = " ".repeat((widths[i] ?? 0) - widthOf(cell));
        return shown[i]?.column.figures === true ? pad + cell : cell + pad;
      })
      .join("  ")
      .trimEnd();
  return [
    line(shown.map(({ column }) => column.title)),
    ...rows.map((row) => line(shown.map(({ at }) => row[at] ?? ""))),
  ].join("\n");
}
