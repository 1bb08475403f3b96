/** The tables of a page by their captions, each with the text of its cells, row by row. */
export function tablesOf(page: string): ReadonlyMap<string, readonly (readonly string[])[]> {
  const tables = new Map<string, readonly (readonly string[])[]>();
  for (const [, table = ""] of page.matchAll(/<table>([\s\S]*?)<\/table>/g)) {
    const caption = /<caption>([^<]*)<\/caption>/.exec(table)?.[1] ?? "";
    const rows = [...table.matchAll(/<tr>([\s\S]*?)<\/tr>/g)].map(([, row = ""]) =>
      [...row.matchAll(/<t[hd][^>]*>([^<]*)<\/t[hd]>/g)].map(([, cell = ""]) => cell),
    );
    tables.set(caption, rows);
  }
  return tables;
}
