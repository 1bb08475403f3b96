import type { EngravingTask, RunningEngraver } from "../notation/engrave";
import type { World } from "./world";

/** The engraver, started with the first picture and ended at the end. */
export class LazyEngraver {
  private running: Promise<RunningEngraver> | undefined;

  constructor(private readonly world: Pick<World, "engraver">) {}

  async engrave(task: EngravingTask): Promise<string> {
    this.running ??= this.world.engraver();
    return (await this.running).engrave(task);
  }

  async stop(): Promise<void> {
    await (await this.running)?.stop();
  }
}
