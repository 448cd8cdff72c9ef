import { forMeeting, type MeasureAction, type MeetingActions } from "../domain/measure-actions"
import type { MonthRecord } from "../domain/month-record"
import { plainToday } from "../domain/plain-date"
import type { Settings } from "../domain/settings"
import { withSettings } from "../domain/setting-words"
import { dietSodium } from "../measures/diet-sodium"
import { themes } from "../measures/themes"
import { wordedMeasures } from "../measures/worded-measures"
import type { DietChangeSums } from "../questions/diet-change"
import type { DietMonth } from "../questions/diet-months"
import { details, type DetailCount } from "../questions/measure-details"
import type { GroupCounts } from "../questions/measure-groups"
import type { MeasureInMonth } from "../questions/measure-in-month"
import type { MeasureMonth } from "../questions/measure-months"
import type { MonthToday } from "../questions/months-today"
import type { PanelCounts } from "../questions/panel-counts"
import type { StandingChange } from "../questions/standing-changes"
import { closedStanding, closedWords, type ClosedFiguresShown } from "./closing-words"
import { dietChangeWords, type DietChangeWords } from "./diet-change-words"
import { dietFigure, type DietFigure } from "./diet-figure"
import { dietSignals, type DietSignals } from "./diet-signals"
import { firstOf, type First } from "./first-lines"
import { measureFigure, type MeasureFigure } from "./measure-figure"
import { placeNotes, type PlacedNote } from "./note-places"
import { reportedGroups, type ReportedDivision } from "./reported-groups"
import { wouldBeWords } from "./would-be-words"

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
  /** How the figures stand to those kept at the closing that they follow; null where they follow none. */
  closed: ClosedFiguresShown
}

/** What people wrote of one measure. */
export type ReportedRecord = { notes: PlacedNote[]; actions: MeasureAction[] }

export type ReportedMeasure = ReportedRecord & {
  figure: MeasureFigure
  /** Parts of those who want attention that say what could be done next. */
  parts: { words: string; people: number }[]
  divisions: ReportedDivision[]
  /** What a closed month would be by what is known today; null where it is the same. */
  wouldBe: string | null
}

/** The mean sodium, its headline series judged, and how that changed since the month before. */
export type ReportedDiet = DietFigure &
  ReportedRecord & { signals: DietSignals; since: DietChangeWords | null }

export type ReportedTheme = { title: string; diet: ReportedDiet | null; measures: ReportedMeasure[] }

/** All that a document says of a month; counts of people, and no patient by name. */
export type MonthReport = ReportedMonth & {
  panel: PanelCounts
  themes: ReportedTheme[]
  first: First
  meeting: MeetingActions
  /** Who closed the month and when, or that it is open; nothing of the running month. */
  closing: string[]
}

/** What a report is made of: the rows of its questions, and what people put on record. */
export type ReportRows = {
  panel: PanelCounts
  months: readonly MeasureMonth[]
  moves: readonly StandingChange[]
  details: readonly DetailCount[]
  diet: readonly DietMonth[]
  groupsByMeasure: ReadonlyMap<string, readonly GroupCounts[]>
  inMonth: readonly MeasureInMonth[]
  dietChange: DietChangeSums | null
  /** What today's facts make of a closed month. */
  today: readonly MonthToday[]
  record: MonthRecord
}

/** Puts the rows together, theme by theme. What came after the month is left out, so that it reads the same later. */
export function monthReport(about: ReportedMonth, rows: ReportRows): MonthReport {
  const { asOf, asOfs, settings } = about
  const { record } = rows
  const figures = wordedMeasures(settings).map((measure) =>
    measureFigure({
      ...{ measure, rows: rows.months, moves: rows.moves, asOfs, asOf },
      inMonth: { rows: rows.inMonth, chosenBaseline: record.baselines.get(measure.id) ?? null },
    }),
  )
  const diet = reportedDiet(about, rows)
  return {
    ...about,
    panel: rows.panel,
    first: firstOf({
      ...{ figures, actions: record.actions, month: about.month },
      diet: { figure: diet, signals: diet.signals },
      // An action is overdue by the day of the figures, so that no clock is read.
      today: plainToday(new Date(about.builtAt), about.timeZone),
    }),
    meeting: forMeeting(record.actions, about.month),
    closing: closingOf(about, record),
    themes: themes.map((theme) => ({
      title: theme.title,
      diet: theme.id === dietSodium.theme ? diet : null,
      measures: figures
        .filter((figure) => figure.measure.theme === theme.id)
        .map((figure) => ({
          ...recordOf(figure.measure.id, { asOfs, record }),
          figure,
          wouldBe: wouldBeWords(
            figure,
            rows.today.find((row) => row.measure_id === figure.measure.id),
          ),
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

function reportedDiet(about: ReportedMonth, rows: ReportRows): ReportedDiet {
  const { asOfs, asOf } = about
  const figure = dietFigure(rows.diet, asOfs, asOf)
  const earlierAsOf = asOfs.at(-2)
  const sums = rows.dietChange
  return {
    ...figure,
    ...recordOf(dietSodium.id, { asOfs, record: rows.record }),
    signals: dietSignals({
      series: figure.headline,
      chosen: figure.chosen,
      chosenBaseline: rows.record.baselines.get(dietSodium.id) ?? null,
    }),
    since: sums && earlierAsOf !== undefined ? dietChangeWords({ sums, earlierAsOf, asOf }) : null,
  }
}

/** The notes within the months told, and the decisions and actions, of one measure. */
function recordOf(
  measureId: string,
  about: { asOfs: readonly string[]; record: MonthRecord },
): ReportedRecord {
  const { asOfs, record } = about
  const own = record.notes.filter((note) => note.measureId === null || note.measureId === measureId)
  const last = asOfs.at(-1) ?? ""
  return {
    notes: placeNotes(
      asOfs,
      own.filter((note) => note.onDay <= last),
    ),
    actions: record.actions.filter((action) => action.measureId === measureId),
  }
}

function closingOf(about: ReportedMonth, { closing }: MonthRecord): string[] {
  if (about.isRunning && closing === null) return []
  if (closing === null) return ["The month is not closed: facts that arrive later still change its figures."]
  return [closedWords(closing, about.timeZone), closedStanding(about.closed)]
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
