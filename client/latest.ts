/**
 * Does one thing at a time, and after it only the latest of what was asked for meanwhile: a cursor that moves
 * through fifty lines asks about the first and the last of them.
 */
export class Latest {
  private running: Promise<void> | undefined;
  private asked = false;

  constructor(private readonly work: () => Promise<void>) {}

  /** Asks for the work to be done from what holds now; resolves once nothing is asked for any more. */
  ask(): Promise<void> {
    this.asked = true;
    this.running ??= this.run();
    return this.running;
  }

  private async run(): Promise<void> {
    try {
      while (this.asked) {
        this.asked = false;
        await this.work();
      }
    } finally {
      // In the same breath as the last look at what is asked for, or what is asked in between would be forgotten.
      this.running = undefined;
    }
  }
}
