import type { CompletionItem } from "vscode-languageserver-types";
import { infoOf } from "../rules/catalogue";
import type { Checked } from "../workspace/check-sources";
import { type CompletionAbility, type CompletionAbout, marked } from "./completion-item";
import { levelsAround } from "./exercise-reach";
import { exerciseText } from "./hover-exercise";
import { fileOf } from "./lines-of";
import { shownText } from "./shown-text";

/** A proposal with what is worth knowing of it, worked out only when the reader stops at it. */
export function resolvedCompletion(
  checked: Checked,
  item: CompletionItem,
  can: CompletionAbility,
): CompletionItem {
  const about: unknown = item.data;
  if (!isAbout(about)) return item;
  switch (about.about) {
    case "exercise": {
      const file = fileOf(checked, about.path);
      const exercise = file?.plan.exercises.get(item.label);
      if (file === undefined || exercise === undefined) return item;
      const text = exerciseText(file.plan, exercise, levelsAround(checked, file));
      return { ...item, documentation: shownText(text, can) };
    }
    case "itself":
      return item;
    case "finding": {
      const info = infoOf(item.label);
      return info === undefined
        ? item
        : { ...item, documentation: marked(`${info.reason} ${info.mend}`, can) };
    }
  }
}

/** The data of a proposal went through the editor and back. */
function isAbout(data: unknown): data is CompletionAbout {
  if (typeof data !== "object" || data === null || !("about" in data)) return false;
  if (data.about === "exercise") {
    return "path" in data && typeof data.path === "string";
  }
  return data.about === "finding" || data.about === "itself";
}
