import type { GroupCounts, GroupKind } from "../questions/measure-groups"
import { rateOf, type Direction, type Rate, type StandingCounts } from "../statistics/rate"
import { suppress } from "./suppress"

/** A group as a document shows it: its counts, or nothing where few people could be told from them. */
export type ReportedGroup = { name: string; shown: { counts: StandingCounts; rate: Rate } | null }

export type ReportedDivision = { kind: GroupKind; groups: ReportedGroup[] }

/**
 * The groups of a measure for a document that leaves the site. Clinicians are left out: they are compared on the screen,
 * where the limits of chance stand beside them.
 */
export function reportedGroups(
  rows: readonly GroupCounts[],
  about: { direction: Direction; smallest: number },
): ReportedDivision[] {
  const kinds = [...new Set(rows.map((row) => row.kind))].filter((kind) => kind !== "clinician")
  return kinds.map((kind) => {
    const own = rows.filter((row) => row.kind === kind)
    const hidden = suppress(
      own.map((row) => [row.excluded, row.unknown, row.met, row.exception, row.not_met]),
      about.smallest,
    )
    return {
      kind,
      groups: own.map((row, place) => ({
        name: row.name ?? "not on record",
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
