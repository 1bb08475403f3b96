import type { Articulation } from "./exercise";
import type { Manner } from "./manner";
import type { Score, ScoreEvent, ScoreNote, Slur } from "./score";

/**
 * The score with its slurs and tonguing replaced. Lip slurs stay as they are: they are what the exercise is
 * for. A pattern starts anew in every bar and after every rest; "all slurred" runs from breath to breath.
 */
export function articulated(score: Score, articulation: Articulation | undefined): Score {
  if (articulation === undefined || articulation.kind === "as written") return score;
  // Numbers far beyond those of the slurs that are written.
  let slur: Slur = { number: 1000, lip: false };
  let join = false;
  return {
    order: score.order,
    bars: score.bars.map((bar) => {
      let turn = 0;
      const events = bar.events.map((event): ScoreEvent => {
        if (event.kind === "rest") {
          join = false;
          turn = 0;
          return event;
        }
        const note = event.lipSlur !== undefined || event.tied ? event : change(event);
        if (event.breath) join = false;
        return note;
      });
      return { ...bar, events };

      function change(note: ScoreNote): ScoreNote {
        const plain: Manner = { ...note.manner, tongued: note.attack === "tongue", tonguing: "single" };
        switch (articulation!.kind) {
          case "all slurred": {
            const first = !join;
            if (first) slur = { number: slur.number + 1, lip: false };
            join = true;
            return note.played({ ...plain, tongued: first }, slur);
          }
          case "all staccato":
            return note.played({ ...plain, marks: [...note.marks, "staccato"] }, undefined);
          case "all tenuto":
            return note.played({ ...plain, marks: [...note.marks, "tenuto"] }, undefined);
          case "double tongued":
            return note.played({ ...plain, tonguing: "double" }, undefined);
          case "triple tongued":
            return note.played({ ...plain, tonguing: "triple" }, undefined);
          case "pattern": {
            const groups = (articulation as Extract<Articulation, { kind: "pattern" }>).groups;
            const length = groups.reduce((sum, group) => sum + group.notes, 0);
            let at = turn++ % length;
            for (const group of groups) {
              if (at >= group.notes) {
                at -= group.notes;
                continue;
              }
              if (group.how === "tongue" || group.notes === 1) return note.played(plain, undefined);
              if (at === 0) slur = { number: slur.number + 1, lip: false };
              return note.played({ ...plain, tongued: at === 0 }, slur);
            }
            return note.played(plain, undefined);
          }
          case "all tongued":
          case "as written":
            return note.played(plain, undefined);
        }
      }
    }),
  };
}
