import type { PictureResultView } from "../../../server/protocol/requests";

/**
 * A picture for the page: its names made its own by a prefix, since several stand on one page, and its notes made
 * choices of a list that a keyboard and a screen reader can go through.
 */
export function markedSvg({ svg, notes }: PictureResultView, prefix: string): string {
  const words = new Map(notes.map((note) => [note.name, note.words]));
  return (
    svg
      .replace(/ role="img"/, ' role="presentation" focusable="false"')
      // Words in a picture are in the words of its notes.
      .replaceAll("<text ", '<text aria-hidden="true" ')
      // The page says what a picture shows; a title here would show under the mouse everywhere.
      .replace(/<title>[^<]*<\/title>/, "")
      .replace(/<desc>[^<]*<\/desc>/, "")
      .replace(/ href="#/g, ` href="#${prefix}`)
      .replace(/ id="([^"]*)"( class="note")?/g, (_, name: string, note: string | undefined) => {
        const said = words.get(name);
        const id = ` id="${prefix}${name}"`;
        if (note === undefined || said === undefined) return `${id}${note ?? ""}`;
        return `${id} class="note" role="option" aria-selected="false" aria-label="${escaped(said)}"`;
      })
  );
}

function escaped(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll('"', "&quot;");
}
