import type { MonthChoice } from "../_ui/month-list"
import { settingsThen } from "../../lib/domain/settings-then"
import type { SnapshotMeta } from "../../lib/engine/snapshot-meta"
import { dayOfYear, month } from "../../lib/speech/format"

/** The day a view speaks of, the month-end before it, and what the running month is. */
export type ChosenMonth = {
  month: string
  asOf: string
  earlierAsOf: string | null
  isRunning: boolean
  /** Whether it is closed, and so stands as it was known then. */
  isClosed: boolean
  /** The earlier month of a change as it stands in an address: null for the month before, which is the default. */
  since: string | null
  /** The month as it stands in an address: null for the running one, which is the default. */
  param: string | null
}

/** The as-of date of the month asked for; a month the snapshot does not have is the running one. */
export function chooseMonth(snapshot: SnapshotMeta, asked: string | null): ChosenMonth {
  const asOf = snapshot.asOfs.find((day) => asked !== null && day.startsWith(asked)) ?? snapshot.runningAsOf
  const isRunning = asOf === snapshot.runningAsOf
  return {
    month: asOf.slice(0, 7),
    asOf,
    earlierAsOf: snapshot.asOfs[snapshot.asOfs.indexOf(asOf) - 1] ?? null,
    since: null,
    isRunning,
    isClosed: isClosedOn(snapshot, asOf),
    param: isRunning ? null : asOf.slice(0, 7),
  }
}

/** Which month it is and how far its data go: "October 2026, running, data through 31 Oct.". */
export function chosenMonthWords(chosen: ChosenMonth): string {
  const state = chosen.isRunning ? `running, data through ${dayOfYear(chosen.asOf)}` : "complete"
  return `${month(chosen.month)}, ${state}.`
}

/** The month of a view, compared with the one it names; a month that is not an earlier one leaves the month before. */
export function chooseMonths(
  snapshot: SnapshotMeta,
  view: { month: string | null; since: string | null },
): ChosenMonth {
  const chosen = chooseMonth(snapshot, view.month)
  const { since } = view
  const earlier = snapshot.asOfs.find((day) => since !== null && day < chosen.asOf && day.startsWith(since))
  if (earlier === undefined || earlier === chosen.earlierAsOf) return chosen
  return { ...chosen, earlierAsOf: earlier, since }
}

/** A closed month speaks by the settings it was closed with: its words name the targets of then. */
export function underSettingsThen(snapshot: SnapshotMeta, chosen: ChosenMonth): SnapshotMeta {
  return { ...snapshot, settings: settingsThen(snapshot, chosen.asOf) }
}

/** Every month of the snapshot, latest first, each with the address that shows it. */
export function monthChoices(
  snapshot: SnapshotMeta,
  hrefOf: (month: string | null) => string,
): MonthChoice[] {
  return snapshot.asOfs.toReversed().map((asOf) => {
    const isRunning = asOf === snapshot.runningAsOf
    const month = asOf.slice(0, 7)
    return { month, isRunning, isClosed: isClosedOn(snapshot, asOf), href: hrefOf(isRunning ? null : month) }
  })
}

function isClosedOn(snapshot: SnapshotMeta, asOf: string): boolean {
  return snapshot.closed.some((one) => one.asOf === asOf)
}
