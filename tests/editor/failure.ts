/** A failure whose message is written for the person at the terminal: shown as it is, without a stack. */
export class Failure extends Error {
  override readonly name = "Failure";
}
