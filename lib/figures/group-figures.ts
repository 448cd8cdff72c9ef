import { groupKinds, type GroupCounts, type GroupKind } from "../questions/measure-groups"
import { newcombeDifference, type Difference } from "../statistics/newcombe-difference"
import { rateOf, type Direction, type Rate } from "../statistics/rate"
import { groupName, groupTitle } from "./group-words"
import { fewestForRate } from "./measure-figure"
import { suppress } from "./suppress"

/** Below this many people a group has its interval, and no single figure that stands for it. */
export const fewestForPoint = 30

/** One group of a measure; without a rate it is not shown to the caller. */
export type GroupFigure = {
  key: string | null
  name: string
  rate: Rate | null
  /** To everybody else of the clinic, for groups that are compared and large enough. */
  difference: Difference | null
}

export type Division = { kind: GroupKind; title: string; groups: GroupFigure[] }

/**
 * A measure divided by clinician, site, sex, age, language, race and ethnicity, each kind in which anything is recorded.
 *
 * Shape: the counts of each group as the question gives them, and the smallest number of people who may be seen; null
 * shows every group, and otherwise clinicians are left out, for each of them would be told from few people.
 * Absent: a difference for clinicians, and where the group or everybody else is fewer than 20.
 */
export function groupFigures(options: {
  direction: Direction
  groups: readonly GroupCounts[]
  smallest: number | null
}): Division[] {
  const { direction, groups, smallest } = options
  const shown = groupKinds.filter((kind) => smallest === null || kind !== "clinician")
  return shown.flatMap((kind) => {
    const own = inOrder(
      kind,
      groups.filter((group) => group.kind === kind),
    )
    if (own.every((group) => group.key === null)) return []
    const rates = own.map((group) => rateOf({ ...group, population: 0, notMet: group.not_met }, direction))
    const clinic = {
      met: rates.reduce((sum, rate) => sum + rate.met, 0),
      total: rates.reduce((sum, rate) => sum + rate.total, 0),
    }
    const hidden =
      smallest === null
        ? []
        : suppress(
            rates.map(({ met, total }) => [met, total - met]),
            smallest,
          )
    const figures = own.map((group, place): GroupFigure => {
      const rate = hidden[place] === true ? null : (rates[place] ?? null)
      const difference = rate === null || kind === "clinician" ? null : toTheOthers(rate, clinic)
      return { key: group.key, name: groupName(kind, group.name), rate, difference }
    })
    return [{ kind, title: groupTitle(kind), groups: figures }]
  })
}

/** As the question has them, but languages by the name they are shown with. */
function inOrder(kind: GroupKind, groups: readonly GroupCounts[]): readonly GroupCounts[] {
  if (kind !== "language") return groups
  const isLast = (group: GroupCounts) => Number(group.key === null)
  const name = (group: GroupCounts) => groupName(kind, group.name)
  return [...groups].sort((a, b) => isLast(a) - isLast(b) || name(a).localeCompare(name(b), "en"))
}

function toTheOthers(rate: Rate, clinic: { met: number; total: number }): Difference | null {
  const others = { met: clinic.met - rate.met, total: clinic.total - rate.total }
  if (rate.total < fewestForRate || others.total < fewestForRate) return null
  return newcombeDifference(rate, others)
}
