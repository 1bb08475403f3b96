/** The protocol's code of an answer that is refused since the text was changed before it could be given. */
const CONTENT_MODIFIED = -32801;

/** Who types faster than that is asked about with the next event. */
const MOST_TRIES = 3;

/**
 * Asks, and asks again where an edit overtook the question: an answer withheld for that reason says nothing of what was
 * asked, and who shows it would show that there is none.
 */
export async function untilAnswered<T>(ask: () => Promise<T>): Promise<T> {
  for (let tries = 1; ; tries++) {
    try {
      return await ask();
    } catch (thrown) {
      if (tries === MOST_TRIES || !isOvertaken(thrown)) throw thrown;
    }
  }
}

function isOvertaken(thrown: unknown): boolean {
  return (
    typeof thrown === "object" && thrown !== null && "code" in thrown && thrown.code === CONTENT_MODIFIED
  );
}
