/** Engraves all the pictures of a set of pages, each once, with as many engravers as there are. */
import { type Engraver, EngravingError, type EngravingTask } from "../notation/engrave";

/** Who does the work of pages, and who is told of it. */
export interface Works {
  readonly engravers: readonly Engraver[];
  readonly signal?: AbortSignal | undefined;
  /** Called after each picture that was engraved. */
  readonly progress?: ((done: number, all: number) => void) | undefined;
  /** Called when no more pictures will be asked for: engravers take much memory. */
  readonly engraved?: (() => Promise<void>) | undefined;
}

/** What came of the tasks: a picture, or none where the engraver could not read the music. */
export interface Engravings {
  readonly of: (task: EngravingTask) => string;
  /** What the pictures that could not be engraved were to show. */
  readonly failed: readonly string[];
}

/** Stands where a picture could not be engraved: an empty one, for the page is to be had all the same. */
const NOTHING = '<svg xmlns="http://www.w3.org/2000/svg" width="100" height="24" viewBox="0 0 100 24"></svg>';

/** Pictures that were engraved before, by their content; handed on from one attempt to the next. */
export type Kept = Map<string, string>;

/** Engraves what is not kept yet. Rejects with the signal's reason, or where an engraver cannot be had at all. */
export async function engravings(
  tasks: readonly EngravingTask[],
  works: Works,
  kept: Kept,
): Promise<Engravings> {
  const wanted = new Map<string, EngravingTask>();
  for (const task of tasks) if (!kept.has(nameOf(task))) wanted.set(nameOf(task), task);
  const waiting = [...wanted];
  const all = waiting.length;
  const failed: string[] = [];
  let done = 0;
  let next = 0;
  let unread = 0;
  await Promise.all(
    works.engravers.map(async (engraver) => {
      for (let at = next++; at < all; at = next++) {
        const [name, task] = waiting[at] ?? [];
        if (name === undefined || task === undefined) return;
        works.signal?.throwIfAborted();
        try {
          kept.set(name, await engraver.engrave(task));
        } catch (error) {
          if (!(error instanceof EngravingError)) throw error;
          unread++;
          failed.push(task.title);
          // Where not one picture succeeds there is no engraver.
          if (unread === all) throw error;
        }
        works.progress?.(++done, all);
      }
    }),
  );
  return { of: (task) => kept.get(nameOf(task)) ?? NOTHING, failed };
}

function nameOf({ musicXml, width, broken, density }: EngravingTask): string {
  return `${width} ${broken} ${density ?? ""}\n${musicXml}`;
}
