/** The same pages as a web page to print, for where there is no press: from the same data, without a script. */
import { withPrefix } from "../notation/clean-svg";
import type { EngravingTask } from "../notation/engrave";
import { escaped } from "../notation/xml-text";
import type { DaySheet, SheetLine, SheetSession, SheetTotals } from "./sheet-day";
import { metronomePicture } from "./sheet-mark";
import { GUTTER, rowsOf } from "./sheet-measure";
import type { Packet, PacketExercise } from "./sheet-packet";
import { type Picture, trimmed, widthOf } from "./sheet-picture";
import {
  CAUTIONS,
  FIGURES,
  FOOT,
  PACKET_MARGIN,
  PAPERS,
  type PageStyle,
  SHEET_MARGIN,
  SHEET_TOP,
  type Sheet,
  WORDS,
  WORDS_BESIDE,
} from "./sheet-style";
import type { WeekSheet } from "./sheet-week";
import { isOpening, OPENED, OPENING, type SheetTempo } from "./sheet-words";

type Engraved = (task: EngravingTask) => string;

/** Day and week sheets as one web page; each begins on a sheet of paper of its own. */
export function sheetsHtml(
  sheets: readonly Sheet[],
  title: string,
  style: PageStyle,
  engraved: Engraved,
): string {
  const writer = new Writer(engraved);
  const body = sheets.map((each) =>
    each.kind === "day" ? writer.day(each.sheet, each.words) : writer.week(each.sheet),
  );
  return documentOf(title, style, SHEET, body.join("\n"));
}

/** A packet as one web page, its contents as links. */
export function packetHtml(packet: Packet, style: PageStyle, engraved: Engraved): string {
  const writer = new Writer(engraved);
  return documentOf(packet.title, style, PACKET, writer.packet(packet));
}

/** White space around a page, in millimetres. The foot of a sheet stands above it, and not in it as on paper. */
interface Margins {
  readonly top: number;
  readonly sides: number;
  readonly bottom: number;
}
const SHEET: Margins = { top: SHEET_TOP, sides: SHEET_MARGIN, bottom: SHEET_TOP };
const PACKET: Margins = { top: 11, sides: PACKET_MARGIN, bottom: 12 };

function documentOf(title: string, style: PageStyle, margins: Margins, body: string): string {
  const paper = style.paper === "letter" ? "letter" : "A4";
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<title>${escaped(title)}</title>
<style>
@page { size: ${paper}; margin: ${margins.top}mm ${margins.sides}mm ${margins.bottom}mm; }
${LOOK}
body { font-size: ${style.large ? WORDS.large : WORDS.plain}pt; max-width: ${PAPERS[style.paper].width - 2 * margins.sides}mm; }
</style>
</head>
<body>
${body}
</body>
</html>
`;
}

/** The height of small letters in Tinos, so that another face is set as large as the pages are reckoned with. */
const X_HEIGHT = 0.46;

const LOOK = `html, body { background: #fff; color: #000; }
body { margin: 6mm auto; font-family: Tinos, "Times New Roman", Times, serif; font-size-adjust: ${X_HEIGHT}; line-height: 1.17; }
@media print { body { margin: 0 auto; } .sheet { margin: 0; } }
.sheet { break-after: page; margin-bottom: 12mm; }
.sheet:last-child { break-after: auto; }
header { border-bottom: 1.2pt solid; padding-bottom: 1mm; }
header > div { display: flex; justify-content: space-between; align-items: end; gap: 4mm; }
header p { margin: 0; }
h1 { font-size: 1.8em; line-height: 1; margin: 0; }
h2 { font-size: 1.15em; margin: 0; }
h3 { font-size: 1em; margin: 3mm 0 1mm; }
p { margin: 1mm 0; }
.about { font-size: .92em; margin: 1mm 0 0; }
.aim { font-size: 1.25em; font-style: italic; }
.session { display: flex; justify-content: space-between; border-bottom: .5pt solid; margin-top: 1.8mm; break-after: avoid; }
.item { break-inside: avoid; display: grid; grid-template-columns: 1.5em 1fr auto; margin-top: 1.4mm; }
.clock { white-space: nowrap; margin-left: .8em; }
.item > .music, .item > .further { grid-column: 1 / -1; }
.beside { grid-template-columns: 1.5em ${WORDS_BESIDE - 9}mm 1fr; column-gap: 1mm; }
.beside > .music { grid-column: 3; grid-row: 1 / span 2; align-self: center; }
.beside > .clock { grid-column: 2; margin-left: 0; }
.row { display: grid; column-gap: ${GUTTER}mm; align-items: start; break-inside: avoid; }
.column > .asked { grid-column: 2 / -1; }
.tick { display: inline-block; width: .8em; height: .8em; border: .7pt solid; }
.blank { display: inline-block; min-width: 3.5em; border-bottom: .5pt solid; }
.long { min-width: 16em; }
.tag { border: .5pt solid; border-radius: 1.5pt; padding: 0 2.5pt; font-size: .78em; }
.mark { height: .92em; width: auto; }
.pause { text-align: center; font-size: .9em; margin: 1.4mm 0 0; }
.foot { border-top: .5pt solid; margin-top: 2.5mm; }
.foot > p { margin: .8mm 0 0; }
.brief { font-size: .88em; margin: 1mm 0 0; }
.small { font-size: .78em; }
figure { margin: .5mm 0 0; break-inside: avoid; }
figure > svg { display: block; }
figcaption { font-weight: bold; font-size: .9em; break-after: avoid; }
table { border-collapse: collapse; width: 100%; font-size: .9em; margin-top: 3mm; }
th, td { border-bottom: .4pt solid; border-left: .4pt solid; padding: 1mm; text-align: center; font-weight: normal; }
th:first-child { border-left: 0; text-align: left; }
thead th, .group th { font-weight: bold; }
.area { break-before: page; }
.exercise > :first-child { break-after: avoid; }
.title { text-align: center; padding: 60mm 0 40mm; break-after: page; }
.title h1 { font-size: 2.4em; }
nav a { color: inherit; }
`;

class Writer {
  private pictures = 0;

  constructor(private readonly engraved: Engraved) {}

  day(sheet: DaySheet, words: number): string {
    const about = [sheet.lesson, ...sheet.remarks, ...aheadOf(sheet.ahead)].filter((each) => each !== "");
    return `<section class="sheet" style="font-size: ${words}pt">
${headOf(sheet, sheet.day)}
${about.length === 0 ? "" : `<p class="about">${about.map(escaped).join(" · ")}</p>`}
${sheet.sessions.map((each) => this.session(each)).join("\n")}
<div class="foot"><p>${figuresOf(sheet.totals)}${sheet.counted === "" ? "" : ` (${escaped(sheet.counted)})`}${sheet.sessions.some(({ lines }) => lines.some(isOpening)) ? ` ${tag(OPENING)}: ${OPENED}` : ""}</p>
<p>How it felt, 0 to 10 ${BLANK} What I noticed <span class="blank long"></span> Signed ${BLANK}</p>
<p class="small">${escaped(FOOT)}</p></div>
</section>`;
  }

  week(sheet: WeekSheet): string {
    const { columns } = sheet;
    const head = columns.map(
      ({ label, remark }) =>
        `<th scope="col">${escaped(label)}${remark === "" ? "" : `<br><span class="small">${escaped(remark)}</span>`}</th>`,
    );
    const rows = sheet.sessions.flatMap((session) => [
      `<tr class="group"><th scope="rowgroup" colspan="${columns.length + 1}">${escaped(session.name)}</th></tr>`,
      ...session.rows.map(
        (row) =>
          `<tr><th scope="row">${escaped(row.name)}${row.dropWhenTired ? ` ${tag("drop when tired")}` : ""}${row.detail === "" ? "" : `<br><span class="small">${escaped(row.detail)}</span>`}</th>${row.cells
            .map(
              (cell) => `<td>${cell === "" ? "" : `${cell === "·" ? "" : `${escaped(cell)} `}${TICK}`}</td>`,
            )
            .join("")}</tr>`,
      ),
    ]);
    const figures = FIGURES.map(
      ({ name, key }) =>
        `<tr><th scope="row"><em>${name}</em></th>${columns.map((_, at) => `<td>${sheet.totals[at]?.[key] ?? ""}</td>`).join("")}</tr>`,
    );
    const whole = sheet.totals.at(-1);
    return `<section class="sheet">
${headOf(sheet, sheet.dates)}
${aheadOf(sheet.ahead)
  .map((each) => `<p class="about">${escaped(each)}</p>`)
  .join("")}
<table><thead><tr><td></td>${head.join("")}</tr></thead>
<tbody>${[...rows, ...figures].join("\n")}
<tr><th scope="row">How it felt, 0 to 10</th>${columns.map(() => "<td></td>").join("")}</tr></tbody></table>
${whole === undefined ? "" : `<p>The whole week: ${figuresOf(whole)}</p>`}
<p>What I noticed <span class="blank long"></span> Signed ${BLANK}</p>
<p class="small">${escaped(FOOT)}</p>
</section>`;
  }

  packet(packet: Packet): string {
    const contents = packet.areas.map(
      (area, a) =>
        `<li><a href="#area-${a}">${escaped(area.name)}</a><ul>${area.exercises
          .map((each, e) => `<li><a href="#exercise-${a}-${e}">${escaped(each.name)}</a></li>`)
          .join("")}</ul></li>`,
    );
    const areas = packet.areas.map(
      (area, a) => `<section class="area" id="area-${a}"><h1>${escaped(area.name)}</h1>
${area.aims.map((aim) => `<p class="aim">${escaped(aim)}</p>`).join("")}
${area.exercises.map((each, e) => this.exercise(each, `exercise-${a}-${e}`)).join("\n")}</section>`,
    );
    return `<section class="title"><h1>${escaped(packet.title)}</h1>
${packet.lines.map((each) => `<p>${escaped(each)}</p>`).join("")}
${CAUTIONS.map((each) => `<p class="small">${escaped(each)}</p>`).join("")}</section>
<nav><h2>Contents</h2><ul>${contents.join("\n")}</ul></nav>
${areas.join("\n")}
<p class="small">${escaped(FOOT)}</p>`;
  }

  private exercise(exercise: PacketExercise, id: string): string {
    const facts = [exercise.without, ...exercise.facts].filter((each) => each !== "").map(escaped);
    if (exercise.tempo !== undefined) facts.unshift(tempoOf(exercise.tempo));
    return `<section class="exercise" id="${id}"><h2>${escaped(exercise.name)}</h2>
${facts.length === 0 ? "" : `<p>${facts.join(" · ")}</p>`}
${exercise.aims.map((aim) => `<p><em>${escaped(aim)}</em></p>`).join("")}
${exercise.music.map((each) => this.figure(each)).join("\n")}</section>`;
  }

  private session(session: SheetSession): string {
    const name = `${session.name}${session.short ? " (short version)" : ""}`;
    const minutes = session.allowed === "" ? session.clock : `${session.clock} of ${session.allowed}`;
    const limit = session.shortAllowed === "" ? "" : `, ${session.shortAllowed}`;
    const short = session.shortVersion.join("; ");
    return `<div class="session"><h2>${escaped(name)}</h2><span>${escaped(minutes)}</span></div>
${session.aims.map((aim) => `<p><em>${escaped(aim)}</em></p>`).join("")}
${rowsOf(session.lines)
  .map((row) => this.row(row))
  .join("\n")}
${short === "" ? "" : `<p class="brief"><strong>Short version${escaped(limit)}:</strong> ${escaped(short)}.</p>`}`;
  }

  private row(row: readonly SheetLine[]): string {
    const lines = row.map((each) => this.line(each)).join("\n");
    const widths = row.map((each) => (each.kind === "item" ? (each.column ?? 0) : 0));
    if (row.length < 2) return lines;
    return `<div class="row" style="grid-template-columns: ${widths.map((each) => `${each.toFixed(1)}mm`).join(" ")}">${lines}</div>`;
  }

  private line(line: SheetLine): string {
    if (line.kind === "pause") return `<p class="pause">— ${escaped(line.text)} —</p>`;
    const asked = [line.where, line.without, line.amount].filter((each) => each !== "").map(escaped);
    if (line.tempo !== undefined) asked.push(tempoOf(line.tempo));
    if (line.rest !== "") asked.push(escaped(line.rest));
    const tags = `${line.inShort ? ` ${tag("short")}` : ""}${line.dropWhenTired ? ` ${tag("drop when tired")}` : ""}${isOpening(line) ? ` ${tag(OPENING)}` : ""}`;
    const aim = line.aim === "" ? "" : ` <em>${escaped(line.aim)}</em>`;
    const reached = line.tempo === undefined ? "" : ` <span class="small">reached</span> ${BLANK}`;
    const [first, ...others] = line.music;
    const further =
      line.further === "" ? "" : `<p class="further">then the same in ${escaped(line.further)}</p>`;
    const inColumn = line.column !== undefined;
    const place = inColumn ? " column" : first?.picture.beside === true ? " beside" : "";
    const [name, words] = [`<strong>${escaped(line.name)}</strong>`, `${asked.join(", ")}${tags}${aim}`];
    return `<div class="item${place}"><span>${TICK}</span>
<div>${inColumn ? name : `${name} ${words}`}</div>
<div class="clock"><strong>${escaped(line.clock)}</strong>${reached}</div>
${inColumn ? `<div class="asked">${words}</div>` : ""}
${first === undefined ? "" : `<div class="music">${this.figure(first)}</div>`}
${others.map((each) => `<div class="music">${this.figure(each)}</div>`).join("\n")}${further}</div>`;
  }

  private figure({ caption, picture }: { readonly caption: string; readonly picture: Picture }): string {
    return `<figure>${caption === "" ? "" : `<figcaption>${escaped(caption)}</figcaption>`}${this.picture(picture)}</figure>`;
  }

  private picture(picture: Picture): string {
    const { svg, width: pixels } = trimmed(this.engraved(picture.task));
    const width = widthOf(picture, pixels);
    return withPrefix(svg, `m${this.pictures++}-`)
      .replace(/<title>[\s\S]*?<\/title>|<desc>[\s\S]*?<\/desc>/g, "")
      .replace(
        / width="[\d.]+" height="[\d.]+"/,
        ` width="${width.toFixed(1)}mm" aria-label="${escaped(picture.alt)}"`,
      );
  }
}

const TICK = '<span class="tick"></span>';
const BLANK = '<span class="blank"></span>';

function tag(words: string): string {
  return `<span class="tag">${words}</span>`;
}

/** Whose sheet it is and of when; under it the aim, and the place in the term. */
function headOf({ player, aim, week, term }: DaySheet | WeekSheet, when: string): string {
  const about = [week, term].filter((each) => each !== "").join(" · ");
  return `<header><div><h1>${escaped(player)}</h1><p><strong>${escaped(when)}</strong></p></div>
<div><p class="aim">${aim === "" ? "" : `“${escaped(aim)}”`}</p><p>${escaped(about)}</p></div></header>`;
}

function aheadOf(ahead: readonly string[]): readonly string[] {
  return ahead.length === 0 ? [] : [`Ahead: ${ahead.join(" · ")}`];
}

function figuresOf(totals: SheetTotals): string {
  return FIGURES.map(({ name, key }) => `${name} <strong>${totals[key]}</strong>`).join(" · ");
}

/** The note of the mark is drawn for the eye; to those who listen its name is enough. */
function tempoOf({ value, beat, number }: SheetTempo): string {
  const mark = metronomePicture(beat)?.replace("<svg ", '<svg class="mark" aria-hidden="true" ') ?? "";
  return `${escaped(value)} ${mark} ${escaped(number)}`;
}
