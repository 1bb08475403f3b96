/**
 * Makes an engraver's SVG self-contained: no style block (a strict content-security policy drops it, and with it
 * the staff lines), no music font, and ids that can be told apart from those of other pictures on a page.
 */
import { metronomeOutline } from "./metronome-note";
import { escaped } from "./xml-text";

/** Groups whose text the dropped style block had made bold or slanted. */
const BOLD = /<g( [^>]*)? class="(ending|fing|reh|tempo)"/g;
const SLANTED = /<g( [^>]*)? class="(dir|dynam|mNum[^"]*)"/g;
/** Groups that are kept by name: the notes and rests of the sheet, which carry numbers of their own. */
const OWN_ID = /^e\d+$/;
/** Classes a page may want to style or find. */
const KEPT_CLASSES = /^(note|rest|mRest|breath|measure|system)$/;

/** Units of the inner drawing to a staff space. */
const SPACE = 180;

/**
 * The picture, drawn in `currentColor` and titled for those who do not see it. Its size in pixels is that of the
 * engraving. Text that is no SVG of the engraver comes back as it is.
 */
export function cleanSvg(svg: string, title: string): string {
  const box = /^\s*(?:<\?xml[^>]*\?>\s*)?<svg viewBox="0 0 (\d+(?:\.\d+)?) (\d+(?:\.\d+)?)"/.exec(svg);
  if (box === null) return svg;
  const [, width = "", height = ""] = box;
  const glyphs = glyphNames(svg);
  return svg
    .replace(/<style[\s\S]*?<\/style>/g, "")
    .replace(
      /^[\s\S]*?<svg [^>]*>/,
      `<svg xmlns="http://www.w3.org/2000/svg" role="img" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}"><title>${escaped(title)}</title>`,
    )
    .replace(/(<svg class="definition-scale") color="[^"]*"/, "$1")
    .replace(/<g class="page-margin"/, '<g class="page-margin" fill="currentColor" stroke="currentColor"')
    .replace(/<g( [^>]*)? class="tempo"[^>]*><text[\s\S]*?<\/text>/g, outlined)
    .replace(BOLD, '<g$1 class="$2" font-weight="bold"')
    .replace(SLANTED, '<g$1 class="$2" font-style="italic"')
    .replace(/ (id|class)="([^"]*)"/g, (whole, name: string, value: string) => {
      if (name === "class") {
        const [first = ""] = value.split(" ");
        return KEPT_CLASSES.test(first) ? ` class="${first}"` : "";
      }
      if (OWN_ID.test(value)) return whole;
      const glyph = glyphs.get(value);
      return glyph === undefined ? "" : ` id="${glyph}"`;
    })
    .replace(/ href="#([^"]*)"/g, (_, value: string) => ` href="#${glyphs.get(value) ?? value}"`)
    .replace(/<text /g, '<text stroke="none" ')
    .replace(/<g\s*\/>|<g>\s*<\/g>/g, "");
}

/** Glyphs are named anew: their names end in a number drawn from the content, which only costs room. */
function glyphNames(svg: string): ReadonlyMap<string, string> {
  const names = new Map<string, string>();
  for (const [, name = ""] of svg.matchAll(/<g id="([0-9A-F]{4,5}-[^"]*)"/g))
    names.set(name, `g${names.size}`);
  return names;
}

/** The music sign of a metronome mark as an outline, its text moved along. */
function outlined(tempo: string): string {
  const sign = /<tspan [^>]*font-family="Leipzig"[^>]*>([^<]*)<\/tspan>/g;
  const signs = [...tempo.matchAll(sign)].map((match) => match[1] ?? "").join("");
  const outline = metronomeOutline(decoded(signs), SPACE * 0.8);
  const at = /<text x="(-?[\d.]+)" y="(-?[\d.]+)"/.exec(tempo);
  if (outline === undefined || at === null) return tempo;
  const [x, y] = [Number(at[1]), Number(at[2])];
  return tempo
    .replaceAll(sign, "")
    .replace(
      /<text x="-?[\d.]+"/,
      `<path stroke="none" transform="translate(${x} ${y})" d="${outline.path}"/><text x="${x + outline.advance}"`,
    );
}

function decoded(text: string): string {
  return text.replace(/&#x([0-9a-f]+);/gi, (_, code: string) =>
    String.fromCodePoint(Number.parseInt(code, 16)),
  );
}

/** The picture in a colour of its own, for where none is inherited (an image, a file). */
export function inColour(svg: string, colour: string): string {
  return svg.replaceAll("currentColor", escaped(colour));
}

/** The picture with all its names prefixed, so that several can stand on one page. */
export function withPrefix(svg: string, prefix: string): string {
  const safe = escaped(prefix);
  return svg.replace(/ id="/g, ` id="${safe}`).replace(/ href="#/g, ` href="#${safe}`);
}
