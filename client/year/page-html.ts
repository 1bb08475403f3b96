/** Where a page's parts come from. */
export interface YearPageParts {
  readonly script: string;
  /** The address of what is laid over the style. */
  readonly theme: string;
  /** The style sheet itself, as the server gave it. */
  readonly style: string;
  /** What a policy calls the place that the addresses are in. */
  readonly source: string;
}

/**
 * The page that a report or a comparison is shown in. Its policy lets nothing in but its own script and styles: what
 * it shows may hold no script, no style of its own and no address.
 */
export function yearPageHtml({ script, theme, style, source }: YearPageParts): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  const nonce = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  const policy = `default-src 'none'; script-src 'nonce-${nonce}'; style-src 'nonce-${nonce}' ${source}`;
  return `<!DOCTYPE html>
<html lang="en">
  <head>
    <meta charset="utf-8" />
    <meta http-equiv="Content-Security-Policy" content="${policy}" />
    <meta name="viewport" content="width=device-width, initial-scale=1" />
    <title>Term</title>
    <style nonce="${nonce}">${style}</style>
    <link rel="stylesheet" href="${theme}" />
  </head>
  <body>
    <main id="page"></main>
    <script nonce="${nonce}" src="${script}"></script>
  </body>
</html>
`;
}
