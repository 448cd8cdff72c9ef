import { ask } from "../../../_http/ask"
import type { ChosenBaseline } from "../../../../lib/domain/chart-marks"
import type { SnapshotMeta } from "../../../../lib/engine/snapshot-meta"
import { rasStartChecked } from "../../../../lib/measures/ras-start-checked"
import type { WordedMeasure } from "../../../../lib/measures/types"
import { detailCounts, type DetailCount } from "../../../../lib/questions/measure-details"
import { measureGroups, type GroupCounts } from "../../../../lib/questions/measure-groups"
import { measureInMonth } from "../../../../lib/questions/measure-in-month"
import { measureMonths } from "../../../../lib/questions/measure-months"
import { measurePeople, type MeasurePerson } from "../../../../lib/questions/measure-people"
import { measureReasons, type ReasonCount } from "../../../../lib/questions/measure-reasons"
import { rasStartDays, type RasStartDays } from "../../../../lib/questions/ras-start-days"
import { standingChangesOf } from "../../../../lib/questions/standing-changes"
import { measureFigure, type MeasureFigure } from "../../../../lib/figures/measure-figure"
import { measureWords } from "../../../../lib/speech/measure-words"
import type { ChosenMonth } from "../../months"
import { rowsOfPage } from "../../search-params"
import { standingOf, type ListedStanding, type MeasureView } from "../search-params"

/** People on one page of a list. */
export const pageSize = 50

export type MeasureAnswers = {
  figure: MeasureFigure
  people: MeasurePerson[]
  groups: GroupCounts[]
  reasons: ReasonCount[]
  details: DetailCount[]
  /** How soon the checked were checked; null for every measure but that of checks after a start. */
  startDays: RasStartDays | null
}

/** Asks the snapshot everything one measure's screen tells, all at once. */
export async function askMeasure(options: {
  measure: WordedMeasure
  snapshot: SnapshotMeta
  chosen: ChosenMonth
  view: MeasureView
  /** Whether the list of people is asked for, too. */
  isPeopleShown: boolean
  chosenBaseline: ChosenBaseline | null
}): Promise<MeasureAnswers> {
  const { measure, snapshot, chosen, view, isPeopleShown } = options
  const day = { as_of: chosen.asOf }
  const page = rowsOfPage(view.page, pageSize)
  const [rows, inMonthRows, moves, people, groups, reasons, details, startDays] = await Promise.all([
    ask(measureMonths),
    ask(measureInMonth),
    chosen.earlierAsOf
      ? ask(standingChangesOf([measure]), { ...day, earlier_as_of: chosen.earlierAsOf })
      : [],
    isPeopleShown ? ask(measurePeople(measure), { ...peopleParams(measure, chosen, view), ...page }) : [],
    ask(measureGroups(measure), day),
    ask(measureReasons(measure), day),
    ask(detailCounts, day),
    measure.id === rasStartChecked.id ? ask(rasStartDays, day) : [],
  ])
  return {
    figure: measureFigure({
      ...{ measure, rows, moves, asOfs: snapshot.asOfs, asOf: chosen.asOf, earlierAsOf: chosen.earlierAsOf },
      inMonth: { rows: inMonthRows, chosenBaseline: options.chosenBaseline },
    }),
    people,
    groups,
    reasons,
    details: details.filter((detail) => detail.measure_id === measure.id),
    startDays: startDays[0] ?? null,
  }
}

/** Who is asked for: those of a change (null here), or else those of a standing; the one that wants attention when nothing is said. */
export function shownStanding(measure: WordedMeasure, view: MeasureView): ListedStanding | null {
  if (view.change !== null) return null
  return view.standing === null ? measureWords(measure).attention : standingOf(view.standing)
}

export function peopleParams(measure: WordedMeasure, chosen: ChosenMonth, view: MeasureView) {
  const { change, detail, reason, clinician, site, sex, age, language, race, ethnicity } = view
  // a cause is one of a change; without one it would narrow to nobody without saying so
  const cause = change === null ? null : view.cause
  return {
    as_of: chosen.asOf,
    earlier_as_of: chosen.earlierAsOf,
    standing: shownStanding(measure, view),
    ...{ change, cause, detail, reason, clinician, site, sex, age, language, race, ethnicity },
  }
}
