import type { Standing } from "../domain/standings"
import type { ChangeCounts } from "./change"
import type { Direction } from "./rate"

/** How many people went from one standing to another between two days; null is not in the panel. */
export type Move = { earlier: Standing | null; later: Standing | null; people: number }

/**
 * Sums the moves of one measure into the counts that splitChange asks for.
 *
 * Shape: moves between the same two days, nobody in two of them; whole numbers of people. In the
 * denominator stand met, not met and, where more is better, unknown. Gained and lost are moves within both
 * denominators to and from met.
 */
export function changeCounts(moves: readonly Move[], direction: Direction): ChangeCounts {
  const counted: readonly (Standing | null)[] =
    direction === "up" ? ["met", "not met", "unknown"] : ["met", "not met"]
  const people = (isOne: (move: { was: boolean; is: boolean; wasMet: boolean; isMet: boolean }) => boolean) =>
    moves
      .filter((move) =>
        isOne({
          was: counted.includes(move.earlier),
          is: counted.includes(move.later),
          wasMet: move.earlier === "met",
          isMet: move.later === "met",
        }),
      )
      .reduce((sum, move) => sum + move.people, 0)
  return {
    earlierMet: people(({ wasMet }) => wasMet),
    earlierTotal: people(({ was }) => was),
    laterMet: people(({ isMet }) => isMet),
    laterTotal: people(({ is }) => is),
    continuing: people(({ was, is }) => was && is),
    gained: people(({ was, is, wasMet, isMet }) => was && is && !wasMet && isMet),
    lost: people(({ was, is, wasMet, isMet }) => was && is && wasMet && !isMet),
    left: people(({ was, is }) => was && !is),
    leftMet: people(({ is, wasMet }) => wasMet && !is),
    joined: people(({ was, is }) => !was && is),
    joinedMet: people(({ was, isMet }) => !was && isMet),
  }
}
