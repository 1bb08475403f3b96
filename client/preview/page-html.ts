import { Uri, type Webview } from "vscode";

/**
 * The page that everything is shown in. Its policy lets nothing in but its own script and style: no pictures, no
 * fonts, no inline styles, no address beyond the extension.
 */
export function pageHtml(webview: Webview, root: Uri): string {
  const nonce = Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) =>
    byte.toString(16).padStart(2, "0"),
  ).join("");
  const at = (name: string): string => webview.asWebviewUri(Uri.joinPath(root, name)).toString();
  const policy = `default-src 'none'; script-src 'nonce-${nonce}'; style-src ${webview.cspSource}`;
  return `<!DOCTYPE html>
<html lang="en">
  <head>
    <meta charset="utf-8" />
    <meta http-equiv="Content-Security-Policy" content="${policy}" />
    <meta name="viewport" content="width=device-width, initial-scale=1" />
    <title>Music</title>
    <link rel="stylesheet" href="${at("page.css")}" />
  </head>
  <body>
    <main id="page"></main>
    <script nonce="${nonce}" src="${at("page.js")}"></script>
  </body>
</html>
`;
}
