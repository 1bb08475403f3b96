/** What goes into which file of printed pages, and how a file is made: for the command line and for an editor alike. */
import { findInstrument } from "../music/instrument";
import {
  type AskedTerm,
  dayChoice,
  packetChoice,
  seesFingerings,
  type Wanted,
  weekChoice,
} from "../pages/sheet-choice";
import { packetHtml, sheetsHtml } from "../pages/sheet-html";
import { type PacketAsk, packet } from "../pages/sheet-packet";
import type { PageStyle } from "../pages/sheet-style";
import { longDate } from "../pages/sheet-words";
import { dateText, mondayOf, spokenDate } from "../plan/date";
import type { Exercise } from "../plan/exercise";
import type { Plan } from "../plan/plan";
import type { Player } from "../plan/player";
import { engravings, type Works } from "./packet-engraving";
import { packetTasks } from "./packet-files";
import {
  type Printed,
  type PrintWorks,
  packetLook,
  printedPacket,
  printedSheets,
  reckonedSheets,
} from "./packet-print";

/** Pages that go into one file. */
export type Pages =
  | { readonly kind: "sheets"; readonly title: string; readonly wanted: readonly Wanted[] }
  | { readonly kind: "packet"; readonly ask: PacketAsk; readonly fingerings: boolean };

export interface PrintJob {
  /** A name for its file, without the ending. */
  readonly name: string;
  readonly pages: Pages;
}

/** Whose sheets are wanted, and of when. */
export interface SheetsAsk {
  readonly terms: readonly AskedTerm[];
  /** A day; or a week, by any of its days or by its taught number. */
  readonly when:
    | { readonly kind: "day"; readonly date: number }
    | { readonly kind: "week of"; readonly date: number }
    | { readonly kind: "week"; readonly number: number };
  /** Whether a week comes with the sheets of its days. */
  readonly days: boolean;
  readonly fingerings: boolean;
}

/** A job for each player who has anything to practise; none where nobody has. */
export function sheetJobs({ terms, when, days, fingerings }: SheetsAsk): readonly PrintJob[] {
  return [...byPlayer(terms)].flatMap(([player, own]) => {
    const wanted =
      when.kind === "day"
        ? dayChoice(own, when.date, fingerings)
        : own.flatMap((each) => {
            const week = when.kind === "week" ? when.number : weekWith(each, when.date);
            return week === undefined ? [] : weekChoice(each, week, { days, fingerings });
          });
    if (wanted.length === 0) return [];
    const monday = firstMonday(wanted);
    const [name, title] =
      when.kind === "day"
        ? [spokenDate(when.date), longDate(when.date)]
        : [`week of ${dateText(monday)}`, `Week of ${longDate(monday)}`];
    return [
      {
        name: `${player}, ${name}`,
        pages: { kind: "sheets", title: `${player}, ${title}`, wanted } as const,
      },
    ];
  });
}

/** The terms of each player, in the order in which the players come. */
export function byPlayer(terms: readonly AskedTerm[]): ReadonlyMap<string, readonly AskedTerm[]> {
  const players = new Map<string, AskedTerm[]>();
  for (const each of terms) {
    const { name } = each.term.player;
    players.set(name, [...(players.get(name) ?? []), each]);
  }
  return players;
}

/** The taught week a day lies in, also where nothing is taught on that day. */
function weekWith({ term }: AskedTerm, date: number): number | undefined {
  return term.days.find((day) => mondayOf(day.date) === mondayOf(date) && day.week !== undefined)?.week;
}

function firstMonday(wanted: readonly Wanted[]): number {
  const dates = wanted.map((each) => (each.kind === "week" ? each.sheet.monday : each.of.day.date));
  return mondayOf(Math.min(...dates));
}

/** All sheets of several jobs as one. */
export function joinedJobs(jobs: readonly PrintJob[], title: string): Pages {
  const wanted = jobs.flatMap(({ pages }) => (pages.kind === "sheets" ? pages.wanted : []));
  return { kind: "sheets", title, wanted };
}

/** What a packet is wanted of: a player or a term where there are terms, else the book. */
export interface PacketWish {
  /** The plans whose exercises are the book. At least one. */
  readonly plans: readonly Plan[];
  readonly terms: readonly AskedTerm[];
  readonly player: Player | undefined;
  readonly term: string | undefined;
  readonly keys: "travelled" | "all" | "home";
  readonly title: string | undefined;
  readonly fingerings: boolean;
}

/** The job of a packet; undefined where there is nothing to put into it. */
export function packetJob(wish: PacketWish): PrintJob | undefined {
  const { terms, player, term, keys } = wish;
  const plan = terms[0]?.plan ?? wish.plans.find((each) => each.exercises.size > 0);
  const instrument =
    (player ?? terms[0]?.term.player ?? firstPlayer(wish.plans))?.instrument ?? findInstrument("trumpet");
  if (plan === undefined || instrument === undefined) return undefined;
  const title = wish.title ?? player?.name ?? term ?? plan.settings.name ?? "The exercise book";
  const names =
    player === undefined ? [...new Set(terms.map((each) => each.term.player.name))] : [player.name];
  const lines = [
    ...[term, ...names.slice(0, MOST_NAMES)].filter((each) => each !== undefined && each !== title),
    instrument.name.charAt(0).toUpperCase() + instrument.name.slice(1),
    KEY_WORDS[keys],
  ].filter((each) => each !== undefined);
  const choice = { title, lines, plan, instrument, player, terms: terms.map((each) => each.term), keys };
  const ask = packetChoice(choice, bookOf(terms.length > 0 ? terms.map((each) => each.plan) : wish.plans));
  if (ask.entries.length === 0) return undefined;
  const fingerings =
    player === undefined
      ? wish.fingerings || terms.some((each) => seesFingerings(each.term.player, false))
      : seesFingerings(player, wish.fingerings);
  return { name: `${title}, packet`, pages: { kind: "packet", ask, fingerings } };
}

/** Names of players that a title page holds. */
const MOST_NAMES = 8;

const KEY_WORDS: Readonly<Record<PacketWish["keys"], string>> = {
  travelled: "Each exercise in the keys it travels through",
  all: "Each exercise in all its keys",
  home: "Each exercise in its home key",
};

function firstPlayer(plans: readonly Plan[]): Player | undefined {
  for (const { players } of plans) for (const player of players.values()) return player;
  return undefined;
}

/** The exercises of several plans, each name once. */
function bookOf(plans: readonly Plan[]): ReadonlyMap<string, Exercise> {
  const book = new Map<string, Exercise>();
  for (const plan of plans) {
    for (const [name, exercise] of plan.exercises) if (!book.has(name)) book.set(name, exercise);
  }
  return book;
}

/** How many pictures there will be at least, for whoever decides how many engravers pay. */
export function picturesOf(pages: Pages): number {
  if (pages.kind === "sheets") return 0;
  return pages.ask.entries.reduce((sum, each) => sum + each.placements.length, 0);
}

/** The pages as PDF. `kept` hands pictures on from one file to the next. */
export function pdfOf(
  pages: Pages,
  style: PageStyle,
  works: PrintWorks,
  kept: Map<string, string>,
): Promise<Printed> {
  return pages.kind === "sheets"
    ? printedSheets(pages.wanted, pages.title, style, works, kept)
    : printedPacket(packet(pages.ask, packetLook(style, pages.fingerings)), style, works);
}

/** The pages as a web page, and what could not be engraved. */
export async function htmlOf(
  pages: Pages,
  style: PageStyle,
  works: Works,
): Promise<{ readonly html: string; readonly failed: readonly string[] }> {
  if (pages.kind === "sheets") {
    const { sheets, made } = await reckonedSheets(pages.wanted, style, works);
    return { html: sheetsHtml(sheets, pages.title, style, made.of), failed: made.failed };
  }
  const book = packet(pages.ask, packetLook(style, pages.fingerings));
  const made = await engravings(packetTasks(book), works, new Map());
  return { html: packetHtml(book, style, made.of), failed: made.failed };
}
