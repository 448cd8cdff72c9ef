import type { Settings } from "../../../lib/domain/settings"
import type { SnapshotMeta } from "../../../lib/engine/snapshot-meta"
import { wordedMeasures } from "../../../lib/measures/worded-measures"
import type { MeasureMonth } from "../../../lib/questions/measure-months"
import type { TriedPerson } from "../../../lib/questions/tried-people"
import { dietFigure, type DietSeries } from "../../../lib/figures/diet-figure"
import { measureFigure, type MeasureFigure } from "../../../lib/figures/measure-figure"
import type { HistoryUnder, WhatIfAnswers } from "./what-if-answers"

/** One measure as it is and as it would be. */
export type TriedMeasure = {
  now: MeasureFigure
  then: MeasureFigure
  moved: number
  people: TriedPerson[]
  isChanged: boolean
}

/** One diet series whose means would be others. */
export type TriedSeries = { now: DietSeries; then: DietSeries }

/** Every measure beside what the choice would make of it, in the registry's order. */
export function triedMeasures(
  answers: WhatIfAnswers,
  snapshot: SnapshotMeta,
  settings: Settings,
): TriedMeasure[] {
  const { asOfs, runningAsOf: asOf } = snapshot
  const figures = (history: HistoryUnder, under: Settings) =>
    wordedMeasures(under).map((measure) =>
      measureFigure({ measure, rows: history.months, moves: [], asOfs, asOf }),
    )
  const then = new Map(figures(answers.then, settings).map((figure) => [figure.measure.id, figure]))
  return figures(answers.now, snapshot.settings).flatMap((now) => {
    const { id } = now.measure
    const tried = then.get(id)
    if (!tried) return []
    const moved = answers.moved.find((one) => one.measure_id === id)?.people ?? 0
    const isChanged = moved > 0 || rowsOf(answers.now.months, id) !== rowsOf(answers.then.months, id)
    const people = answers.people.filter((one) => one.measure_id === id)
    return [{ now, then: tried, moved, people, isChanged }]
  })
}

/** The diet series whose means the choice changes. */
export function triedSeries(answers: WhatIfAnswers, snapshot: SnapshotMeta): TriedSeries[] {
  const { asOfs, runningAsOf } = snapshot
  const then = dietFigure(answers.then.diet, asOfs, runningAsOf).series
  return dietFigure(answers.now.diet, asOfs, runningAsOf).series.flatMap((now, place) => {
    const tried = then[place]
    return tried && JSON.stringify(tried.points) !== JSON.stringify(now.points) ? [{ now, then: tried }] : []
  })
}

function rowsOf(rows: readonly MeasureMonth[], id: string): string {
  return JSON.stringify(rows.filter((row) => row.measure_id === id))
}
