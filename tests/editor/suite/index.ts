import * as vscode from "vscode";
import { runChecks } from "./checks";
import { deletedWhileOpen } from "./deleted";
import { severalFolders } from "./folders";
import { completion, hover, outline, rename } from "./knowing";
import { mainStory } from "./main-story";
import { newStudio } from "./new-studio";
import { neverSaved, noDisk } from "./no-disk";
import { clickJumps, exports, halfWritten, hoverPicture, playMarks, previewFollows } from "./preview";
import { printsDay, printsPacket, printsWeek } from "./print";
import { serverBack } from "./server-back";
import { sideView, statusItem } from "./side-view";
import { starts } from "./start";
import { STORIES, type Story } from "./stories";
import { anyTrust } from "./trust";
import { lastCommit, nextTerm, otherPlan, report } from "./year";

const checks: Readonly<Record<Story, () => Promise<void>>> = {
  "starts when a plan is opened, not before, and in time": starts,
  "a key too high on a Tuesday is marked, mended, and marked again by undo": mainStory,
  "completion offers exercises and keys": completion,
  "a hover tells what a name means": hover,
  "a hover shows the music of a line": hoverPicture,
  "the preview goes along with the cursor and shows the notes": previewFollows,
  "a click on a note leads to the text, and the cursor marks the note": clickJumps,
  "half-written music is shown as far as it goes": halfWritten,
  "notes are marked as they sound": playMarks,
  "an exercise is written for other programs, and nothing is replaced unasked": exports,
  "a rename goes through all files": rename,
  "the outline holds the terms": outline,
  "the side view tells weeks and days, leads to the line, and follows the editor": sideView,
  "the status item tells the day under the cursor": statusItem,
  "the report of a term follows the text, and is kept as a file": report,
  "a plan is compared with the last commit, or it is said why not": lastCommit,
  "a plan is compared with another, with notation side by side": otherPlan,
  "a term is begun from another, and what was left out is shown": nextTerm,
  "a day is printed to a file, and nothing is replaced unasked": printsDay,
  "a week is printed into a folder, a file for each player": printsWeek,
  "a packet is printed of a book that lies on no disk": printsPacket,
  "a new studio checks clean and writes over nothing": newStudio,
  "a server that ends comes back; one that keeps ending is left alone until asked for": serverBack,
  "a studio on no disk is read through the editor": noDisk,
  "a plan that was never saved is checked": neverSaved,
  "a book that is deleted while it is open holds until it is closed": deletedWhileOpen,
  "a second folder is checked while it is open": severalFolders,
  "a studio is checked whether its folder is trusted or not": anyTrust,
};

/** The entry that an editor's test host calls. */
export function run(): Promise<void> {
  console.log(
    `        VS Code ${vscode.version}, ${typeof process === "undefined" ? "no process" : `Node ${process.version}`}`,
  );
  return runChecks(STORIES, checks);
}
