/** Rows as RFC 4180 has them: lines end in CR LF, fields are quoted where they must be. */
export function csvText(rows: readonly (readonly (string | number)[])[]): string {
  return rows.map((row) => `${row.map(field).join(",")}\r\n`).join("");
}

function field(value: string | number): string {
  if (typeof value === "number") return String(Math.round(value * 1000) / 1000);
  // A spreadsheet would take a name that starts like this for a formula.
  const text = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
