/** Takes a part, what was measured, the figure, its bar, the unit of both, and what is shown beside. */
export type Judge = (
  part: string,
  what: string,
  figure: number,
  bar: number,
  unit: string,
  beside: string,
) => void;
