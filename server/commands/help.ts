import { nearest } from "../plan/nearest";
import { catalogue } from "../rules/catalogue";
import { readOptions } from "./options";
import { CLEAN, Misuse, type World } from "./world";

const GENERAL = `Leadpipe reads brass practice plans, adds them up and says what a teacher would want to know.

  leadpipe check [files]           what is the matter with these plans
  leadpipe totals [files]          clock, playing, upper, stretch and load
  leadpipe explain "Exercise"      everything about one exercise
  leadpipe write "Exercise"        as MusicXML, MIDI or a picture, for other programs
  leadpipe read FILE               a melody in MusicXML as the text of an exercise
  leadpipe format [files]          lay the files out in the one common way
  leadpipe compare A B             how plan B differs from plan A
  leadpipe unroll FILE             a plan week by week in words, for git diff
  leadpipe carry FILE              a new term from an old one
  leadpipe print WHAT [files]      pages for the music stand: a day, a week, a packet
  leadpipe calendar [files]        a calendar file for each player
  leadpipe report [files]          coverage and load of terms as a page with charts
  leadpipe serve                   the language server, for an editor to start
  leadpipe help VERB               a verb with its options and examples
  leadpipe help findings           everything it may find, and why
  leadpipe version

Files are plan files, folders of them, or - for standard input; without any it takes the folder you are in.
It ends with 0 when all is well, 1 when something was found, 2 when it was asked in a way it does not know.
`;

const VERBS: ReadonlyMap<string, string> = new Map([
  [
    "check",
    `leadpipe check [files and folders]

Reads the plans, plays every term through day by day for each player, and says what it finds.

  --strict   end with 1 for warnings too, not only for errors
  --quiet    leave the notes out
  --mends    work out changes that take a finding away and bring no new one
  --json     for other programs

Examples
  leadpipe check samples
  leadpipe check --strict autumn.practice
  leadpipe check --mends autumn.practice
  cat autumn.practice | leadpipe check -
`,
  ],
  [
    "totals",
    `leadpipe totals [files and folders]

Clock time, playing, upper, longest stretch and load, beside what the player is allowed.

  --by session|day|week|term   how finely; week where nothing is said
  --player "K. M."             one player only
  --term "Autumn"              one term only
  --week 3                     one taught week only
  --coverage                   instead: keys of each exercise, days of each area, registers (and, as data, tempi) of
                               each week
  --history METHOD             instead: the load against the weeks before; weighted, coupled or uncoupled
  --csv                        for a spreadsheet, times in seconds
  --json                       for other programs

Examples
  leadpipe totals samples --by term
  leadpipe totals samples --by day --week 3 --player "K. M."
  leadpipe totals samples --csv > totals.csv
`,
  ],
  [
    "explain",
    `leadpipe explain "Exercise" [files and folders]

Range, duration, load, fingering, breath and tongue of one time through, and the keys that fit each player.

  --in KEY           in another key: G, Bb, "A minor"
  --player "K. M."   for one player only

Examples
  leadpipe explain "Slow fifths" samples
  leadpipe explain "Slow fifths" --in Bb --player "Seniors" samples
`,
  ],
  [
    "format",
    `leadpipe format [files and folders]

Lays plan files out in the one common way, in place. What cannot be read is left as it stands.

  --check    change nothing; end with 1 if a file is laid out differently

Examples
  leadpipe format samples
  leadpipe format --check samples
  cat autumn.practice | leadpipe format -
`,
  ],
  [
    "compare",
    `leadpipe compare BEFORE AFTER
leadpipe compare --since REVISION [files and folders]

How two plans differ, in a teacher's order: the book, the players, then each term with what was taken up and given
up, areas, keys, tempi and minutes, and last the findings. Two files, two folders, or a git revision and today.
Weeks are set side by side by taught week, not by date. What is only laid out otherwise is no difference.

  --since REVISION   compare with what git kept: HEAD~3, a branch, a tag
  --until REVISION   up to this revision, and not up to today
  --quiet            leave the notes among the findings out
  --html FILE        as a page, with rewritten exercises as notation side by side and charts; --force writes it anew
  --json             for other programs

Examples
  leadpipe compare samples/2025-26 samples/2026-27
  leadpipe compare --since HEAD~3 samples
`,
  ],
  [
    "write",
    `leadpipe write "Exercise" [files and folders]
leadpipe write --all [files and folders] --to FOLDER

An exercise as a file for notation programs (musicxml), for whatever plays (midi), or as a picture (svg).
A series is written out cell by cell, an exercise in partials over all the valve combinations.

  --as FORM          musicxml, midi or svg; else what the name after --to ends in, or musicxml
  --to FILE          where to, or a folder; else a file named after the exercise, here; - for standard output
  --in KEY           in another key: G, Bb, "A minor"
  --valves 12        an exercise in partials on one combination only
  --tempo 60         in the note value that the exercise counts
  --player "K. M."   for this player's instrument
  --fingerings       with the valves of every note
  --all              every exercise with notes, one file each
  --force            write over files that are there

Examples
  leadpipe write "Slow fifths" --in F --to fifths.mid samples
  leadpipe write "Slow fifths" --as svg --fingerings samples
  leadpipe write --all samples/book.practice --as musicxml --to notation
`,
  ],
  [
    "unroll",
    `leadpipe unroll FILE

A plan told line by line: music a bar to a line, terms week by week, each week with its own tempi and amounts. Weeks
have numbers and not dates. It asks no other file, so git can show the difference of two versions in these words:

  git config diff.leadpipe.textconv "leadpipe unroll"
  echo "*.practice diff=leadpipe" >> .gitattributes

Examples
  leadpipe unroll autumn.practice
  cat autumn.practice | leadpipe unroll -
`,
  ],
  [
    "carry",
    `leadpipe carry FILE --from DATE --to DATE

A new term from each old one of a file: weeks, sessions and assignments as they are, and each day that is named moved
to the same weekday of the same taught week. What the new term does not have is listed, and what is found in it.
Nothing is ever overwritten; without --out the new plan is printed.

  --closed "DATE to DATE reason, …"   the new closures; the old ones are left out
  --light "…"   --no-lesson "…"       likewise
  --bookings                          move bookings and concerts on single days too
  --term "Autumn 2026"                one term of the file only
  --name "Autumn 2027"                the new name; otherwise the years in it are moved on
  --out FILE                          write a new file

Examples
  leadpipe carry samples/2026-27/autumn.practice --from 2027-09-06 --to 2027-12-10
  leadpipe carry autumn.practice --from 2027-09-06 --to 2027-12-10 \\
    --closed "2027-10-25 to 2027-10-30 half-term" --bookings --out autumn-2027.practice
`,
  ],
  [
    "print",
    `leadpipe print day|week|packet [files and folders]

Pages for the music stand, as PDF: each exercise in the key of that day, with tempo, times through, rest and minutes,
boxes to tick, and what comes next. A day goes on one page where it can; the staves become smaller for it, in steps,
and where it cannot the command says how many pages it takes.

  leadpipe print day       one day for each player; today where nothing is said
  leadpipe print week      an overview of the week, then a sheet for each of its days
  leadpipe print packet    the exercise book, or what a player or a term goes through, with contents

  --on 2026-09-07    the day, or any day of the week
  --week 3           a taught week instead, by its number; name the term with it where there are several
  --overview         of a week only the overview
  --player "K. M."   one player only; without it a file for each
  --term "Autumn"    one term only
  --keys WHICH       of a packet: all, home, or travelled (the keys a term goes through)
  --title "…"        of a packet
  --fingerings       under the notes; first-years always see them
  --large            large print, on as many pages as it takes
  --paper letter     US Letter; A4 where nothing is said
  --html             web pages to print from a browser, in place of PDF
  --to PLACE         a folder, or one file (ending in .pdf or .html) for everything
  --force            write over what is there

Examples
  leadpipe print week samples/2026-27 --on 2027-01-11 --to sheets
  leadpipe print day samples/2026-27 --on 2027-01-12 --player "L. F."
  leadpipe print packet samples/2026-27/spring.practice --player "R. A." --large
  leadpipe print packet samples/book.practice --keys all --to book.pdf
`,
  ],
  [
    "calendar",
    `leadpipe calendar [files and folders]

A calendar file (iCalendar, .ics) for each player: a session a day with its list and minutes, lessons, bookings and
concerts. Read into a calendar again after the plan has changed, it moves what it brought and doubles nothing.

  --to FOLDER                           where to write; the folder you are in where nothing is said
  --player "K. M."   --term "Autumn"    one player, one term only
  --at 07:30                            the hour of every session; without it they stand at the head of the day
  --at "Morning 07:30, Band 18:00"      by the names of sessions and bookings
  --alarm 10                            ring so many minutes before a session
  --force                               write files anew that are there

Examples
  leadpipe calendar samples/2026-27 --player "K. M." --to calendars
  leadpipe calendar samples/2026-27 --at "Morning 07:15, Afternoon 16:30" --alarm 10 --to calendars
`,
  ],
  [
    "serve",
    `leadpipe serve

The language server, over standard input and output: findings, hovers, completion and the rest for any editor that
speaks the Language Server Protocol. An editor starts it; by hand there is nothing to see.

Example
  leadpipe serve
`,
  ],
  [
    "read",
    `leadpipe read FILE

A melody in MusicXML, from a notation program, as the text of an exercise to be put into a book. It takes the first
voice of the first part as it is printed, and says what it left out: words, chords, other voices, lyrics.

  --area "Songs"    the area it shall belong to; Songs where nothing is said
  --name "Tune"     its name; else the title in the file

Examples
  leadpipe read tune.musicxml
  leadpipe read tune.musicxml --area "Songs" >> book.practice
`,
  ],
  [
    "report",
    `leadpipe report [files and folders]

Coverage and load of each term and player as one page (HTML) that needs no other file and prints well: weeks and days
against what is allowed, areas, keys, registers, tempi; a chart and the table of its numbers beside it.

  --to FILE          where to write; report.html where nothing is said
  --player "K. M."   one player only
  --term "Autumn"    one term only
  --history METHOD   with the load against the weeks before; weighted, coupled or uncoupled
  --force            write the file anew if it is there

Examples
  leadpipe report samples/2026-27/autumn.practice --player "R. A."
  leadpipe report samples --term "Autumn 2026, seniors" --to autumn.html
`,
  ],
  [
    "help",
    "leadpipe help [VERB or findings]\n\nExamples\n  leadpipe help totals\n  leadpipe help findings\n",
  ],
  ["version", "leadpipe version\n\nThe version of this program.\n"],
]);

/** The verbs there are. */
export const VERB_NAMES: readonly string[] = [...VERBS.keys()];

/** `leadpipe help`. */
export function help(args: readonly string[], world: World): number {
  const { words } = readOptions("help", args, {});
  const [topic] = words;
  if (topic === undefined) world.out(GENERAL);
  else if (topic === "findings") world.out(findingsText(world));
  else {
    const text = VERBS.get(topic);
    if (text === undefined) {
      const near = nearest(topic, [...VERB_NAMES, "findings"]);
      throw new Misuse(
        `There is no help on “${topic}”.${near === undefined ? " Try: leadpipe help" : ` Did you mean “${near}”?`}`,
      );
    }
    world.out(text);
  }
  return CLEAN;
}

function findingsText({ paint }: World): string {
  return catalogue
    .map(
      (each) =>
        `${paint.strong(each.code)} (${paint[each.severity](each.severity)}): ${each.title}\n    ${each.reason}\n    ${each.mend}\n`,
    )
    .join("\n");
}
