import type { GroupCounts, GroupKind } from "../questions/measure-groups"
import { rateOf, type Direction, type Rate, type StandingCounts } from "../statistics/rate"
import { groupName } from "./group-words"
import { suppress } from "./suppress"

/** A group as a document shows it: its counts, or nothing where few people could be told from them. */
export type ReportedGroup = { name: string; shown: { counts: StandingCounts; rate: Rate } | null }

export type ReportedDivision = { kind: GroupKind; groups: ReportedGroup[] }

/**
 * The groups of a measure for a document that leaves the site, of the kinds that are on record of anybody. Clinicians are left out: they are compared on the screen,
 * where the limits of chance stand beside them.
 */
export function reportedGroups(
  rows: readonly GroupCounts[],
  about: { direction: Direction; smallest: number },
): ReportedDivision[] {
  const recorded = rows.filter((row) => row.name !== null && row.kind !== "clinician")
  const kinds = [...new Set(recorded.map((row) => row.kind))]
  return kinds.map((kind) => {
    const own = rows.filter((row) => row.kind === kind)
    const hidden = suppress(
      own.map((row) => [row.excluded, row.unknown, row.met, row.exception, row.not_met]),
      about.smallest,
    )
    return {
      kind,
      groups: own.map((row, place) => ({
        name: groupName(kind, row.name),
        shown: hidden[place] ? null : shownOf(row, about.direction),
      })),
    }
  })
}

function shownOf(row: GroupCounts, direction: Direction): { counts: StandingCounts; rate: Rate } {
  const { excluded, unknown, met, exception, not_met: notMet } = row
  const population = excluded + unknown + met + exception + notMet
  const counts = { population, excluded, unknown, met, exception, notMet }
  return { counts, rate: rateOf(counts, direction) }
}
