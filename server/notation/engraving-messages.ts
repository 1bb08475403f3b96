/** What passes between a thread that engraves and whoever asks it. */
import type { EngravingTask } from "./engrave";

export interface EngravingRequest {
  readonly number: number;
  readonly task: EngravingTask;
}

export type EngravingAnswer =
  | { readonly number: number; readonly svg: string }
  | { readonly number: number; readonly trouble: string };

/** Whether something that came over from the other thread is an answer. */
export function isAnswer(message: unknown): message is EngravingAnswer {
  return (
    typeof message === "object" &&
    message !== null &&
    "number" in message &&
    typeof message.number === "number" &&
    (("svg" in message && typeof message.svg === "string") ||
      ("trouble" in message && typeof message.trouble === "string"))
  );
}

/** Whether something that came over from the other thread is a request. */
export function isRequest(message: unknown): message is EngravingRequest {
  if (typeof message !== "object" || message === null) return false;
  if (!("number" in message) || typeof message.number !== "number" || !("task" in message)) return false;
  const { task } = message;
  return (
    typeof task === "object" &&
    task !== null &&
    "musicXml" in task &&
    typeof task.musicXml === "string" &&
    "width" in task &&
    typeof task.width === "number" &&
    "broken" in task &&
    typeof task.broken === "boolean" &&
    "title" in task &&
    typeof task.title === "string"
  );
}
