import type { Settings } from "../domain/settings"
import { withSettings } from "../domain/setting-words"
import { dietSodium } from "../measures/diet-sodium"
import { themes } from "../measures/themes"
import { wordedMeasures } from "../measures/worded-measures"
import type { DietMonth } from "../questions/diet-months"
import { details, type DetailCount } from "../questions/measure-details"
import type { GroupCounts } from "../questions/measure-groups"
import type { MeasureMonth } from "../questions/measure-months"
import type { PanelCounts } from "../questions/panel-counts"
import type { StandingChange } from "../questions/standing-changes"
import { dietFigure, type DietFigure } from "./diet-figure"
import { measureFigure, type MeasureFigure } from "./measure-figure"
import { reportedGroups, type ReportedDivision } from "./reported-groups"

/** The clinic and day that a document speaks of. */
export type ReportedMonth = {
  clinicName: string
  isDemo: boolean
  /** "2026-10". */
  month: string
  asOf: string
  isRunning: boolean
  /** False where whoever asked sees only a part of the clinic: then the document speaks of that part. */
  isWholeClinic: boolean
  /** When the figures were computed, an instant. */
  builtAt: string
  timeZone: string
  settings: Settings
  /** The as-of dates up to the month's own, earliest first. */
  asOfs: readonly string[]
}

export type ReportedMeasure = {
  figure: MeasureFigure
  /** Parts of those who want attention that say what could be done next. */
  parts: { words: string; people: number }[]
  divisions: ReportedDivision[]
}

export type ReportedTheme = { title: string; diet: DietFigure | null; measures: ReportedMeasure[] }

/** All that a document says of a month; counts of people, and nobody by name. */
export type MonthReport = ReportedMonth & { panel: PanelCounts; themes: ReportedTheme[] }

/** The rows of the questions a report is made of. */
export type ReportRows = {
  panel: PanelCounts
  months: readonly MeasureMonth[]
  moves: readonly StandingChange[]
  details: readonly DetailCount[]
  diet: readonly DietMonth[]
  groupsByMeasure: ReadonlyMap<string, readonly GroupCounts[]>
}

/** Puts the rows together, theme by theme. What came after the month is left out, so that it reads the same later. */
export function monthReport(about: ReportedMonth, rows: ReportRows): MonthReport {
  const { asOf, asOfs, settings } = about
  const figures = wordedMeasures(settings).map((measure) =>
    measureFigure({ measure, rows: rows.months, moves: rows.moves, asOfs, asOf }),
  )
  return {
    ...about,
    panel: rows.panel,
    themes: themes.map((theme) => ({
      title: theme.title,
      diet: theme.id === dietSodium.theme ? dietFigure(rows.diet, asOfs, asOf) : null,
      measures: figures
        .filter((figure) => figure.measure.theme === theme.id)
        .map((figure) => ({
          figure,
          parts: partsOf(figure, { rows, isRunning: about.isRunning }),
          divisions: reportedGroups(rows.groupsByMeasure.get(figure.measure.id) ?? [], {
            direction: figure.measure.direction,
            smallest: settings["reports.smallestGroup"],
          }),
        })),
    })),
  }
}

/** Every measure with standings, in the order of the themes. */
export function reportedMeasures(report: MonthReport): ReportedMeasure[] {
  return report.themes.flatMap((theme) => theme.measures)
}

function partsOf(
  figure: MeasureFigure,
  { rows, isRunning }: { rows: ReportRows; isRunning: boolean },
): { words: string; people: number }[] {
  return details
    .filter((detail) => detail.measureId === figure.measure.id && detail.isOnMonth)
    .filter((detail) => isRunning || !detail.isAhead)
    .map((detail) => ({
      words: withSettings(detail.words, figure.measure.set),
      people:
        rows.details.find((row) => row.measure_id === detail.measureId && row.detail === detail.id)?.people ??
        0,
    }))
    .filter((part) => part.people > 0)
}
