import type { Articulation } from "./exercise";
import type { Score, ScoreEvent, ScoreNote } from "./score";

/**
 * The score with its slurs and tonguing replaced. Lip slurs stay as they are: they are what the exercise is
 * for. A pattern starts anew in every bar and after every rest; "all slurred" runs from breath to breath.
 */
export function articulated(score: Score, articulation: Articulation | undefined): Score {
  if (articulation === undefined || articulation.kind === "as written") return score;
  let slur = 1000;
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
        const plain = {
          ...note,
          slur: undefined,
          tongued: note.attack === "tongue",
          tonguing: "single" as const,
        };
        switch (articulation!.kind) {
          case "all slurred": {
            if (!join) slur++;
            const first = !join;
            join = true;
            return { ...plain, slur, tongued: first };
          }
          case "all staccato":
            return { ...plain, marks: [...note.marks, "staccato"] };
          case "all tenuto":
            return { ...plain, marks: [...note.marks, "tenuto"] };
          case "double tongued":
            return { ...plain, tonguing: "double" };
          case "triple tongued":
            return { ...plain, tonguing: "triple" };
          case "pattern": {
            const groups = (articulation as Extract<Articulation, { kind: "pattern" }>).groups;
            const length = groups.reduce((sum, group) => sum + group.notes, 0);
            let at = turn++ % length;
            for (const group of groups) {
              if (at >= group.notes) {
                at -= group.notes;
                continue;
              }
              if (group.how === "tongue" || group.notes === 1) return plain;
              if (at === 0) slur++;
              return { ...plain, slur, tongued: at === 0 };
            }
            return plain;
          }
          case "all tongued":
          case "as written":
            return plain;
        }
      }
    }),
  };
}
