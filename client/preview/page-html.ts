/** Where the page's parts come from. */
export interface PageParts {
  readonly script: string;
  readonly style: string;
  /** What a policy calls the place they come from. */
  readonly source: string;
}

/**
 * The page that everything is shown in. Its policy lets nothing in but its own script and style: no pictures, no
 * fonts, no inline styles, no address beyond the extension.
 */
export function pageHtml({ script, style, source }: PageParts): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  const nonce = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  const policy = `default-src 'none'; script-src 'nonce-${nonce}'; style-src ${source}`;
  return `<!DOCTYPE html>
<html lang="en">
  <head>
    <meta charset="utf-8" />
    <meta http-equiv="Content-Security-Policy" content="${policy}" />
    <meta name="viewport" content="width=device-width, initial-scale=1" />
    <title>Music</title>
    <link rel="stylesheet" href="${style}" />
  </head>
  <body>
    <main id="page"></main>
    <script nonce="${nonce}" src="${script}"></script>
  </body>
</html>
`;
}
