import { keyName } from "../music/key";
import { pitchSign } from "../music/pitch";
import { valueName } from "../music/rhythm";
import type { Articulation, Exercise, Rest } from "../plan/exercise";
import { list, quoted, shortTime } from "../rules/words";

/**
 * What an exercise says beside its notes, each under the word a teacher has for it. Two exercises that say the
 * same give the same lines, whether they say it themselves or are like another.
 */
export function exerciseLines(exercise: Exercise): ReadonlyMap<string, string> {
  const { content, tempo, series, ornament, articulation } = exercise;
  const lines = new Map<string, string>([["area", exercise.area]]);
  const say = (what: string, text: string | undefined): void => {
    if (text !== undefined) lines.set(what, text);
  };
  switch (content.kind) {
    case "notes":
      say("written in", { pitches: "notes", degrees: "scale degrees", partials: "partials" }[content.by]);
      say("key", content.key === undefined ? undefined : keyName(content.key));
      break;
    case "printed": {
      const bars = content.bars === undefined ? "" : `, bars ${content.bars.from} to ${content.bars.to}`;
      const page = content.page === undefined ? "" : `, page ${content.page}`;
      say("printed in", `${quoted(content.title)}${page}${bars}`);
      say("range", `${pitchSign(content.low)} to ${pitchSign(content.high)}`);
      say("length", shortTime(content.seconds));
      say("upper", shortTime(content.upperSeconds));
      break;
    }
    case "activity":
      say("work without notes", content.activity);
      say("lips", content.loadsLips ? "used" : "spared");
      say("length", shortTime(content.seconds));
      break;
  }
  say("tempo", tempo === undefined ? undefined : `${valueName(tempo.beat)} = ${tempo.bpm}`);
  say("rest", restWords(exercise.rest));
  say("articulation", articulation === undefined ? "as written" : articulationWords(articulation));
  say(
    "ornament",
    ornament === undefined ? undefined : `${ornament.ornament} from the ${valueName(ornament.from)} on`,
  );
  if (series !== undefined) {
    const cells = series.cells === undefined ? "as many cells as fit" : `${series.cells} cells`;
    const step = Math.abs(series.semitones);
    const steps = step === 1 ? "a half step" : `${step} half steps`;
    say("series", `${cells}, ${steps} ${series.semitones < 0 ? "down" : "up"} each`);
  }
  if (exercise.aims.length > 0) say("aims", list(exercise.aims.map(quoted), exercise.aims.length));
  return lines;
}

function restWords(rest: Rest): string {
  switch (rest.kind) {
    case "equal":
      return "as long as was played";
    case "none":
      return "none";
    case "time":
      return shortTime(rest.seconds);
  }
}

function articulationWords(articulation: Articulation): string {
  return articulation.kind === "pattern"
    ? articulation.groups.map(({ how, notes }) => `${how} ${notes}`).join(" ")
    : articulation.kind;
}
