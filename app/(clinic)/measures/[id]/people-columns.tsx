import { count, day, sentenceCase } from "../../../../lib/speech/format"
import type { Standing } from "../../../../lib/domain/standings"
import type { WordedMeasure } from "../../../../lib/measures/types"
import type { MeasurePerson } from "../../../../lib/questions/measure-people"
import { measureWords, standingWords } from "../../../../lib/speech/measure-words"
import type { ListedStanding } from "../search-params"
import type { Column } from "./column"
import * as kidney from "./kidney-columns"
import * as pressure from "./pressure-columns"

const age: Column = { head: "Age", label: "age", isNumber: true, cell: (one) => count(one.age_years) }

const clinician: Column = {
  head: "Clinician",
  isFolding: true,
  absent: "no clinician",
  cell: (one) => one.clinician_name,
}

const nextVisit: Column = {
  head: "Next visit",
  label: "next visit",
  isNumber: true,
  absent: "none booked",
  cell: (one) => (one.next_visit_on === null ? null : day(one.next_visit_on)),
}

const reasons: Column = {
  head: "Because",
  label: "because",
  isLong: true,
  cell: (one) =>
    one.reasons.length === 0 ? null : sentenceCase([...one.reasons, ...decided(one)].join("; ")),
}

/** What a clinician decided and until when it holds, beside the reason that a decision is in force. */
function decided({ decided, decided_until }: MeasurePerson): string[] {
  if (decided === null || decided_until === null) return []
  return [`${decided}, until ${day(decided_until)}`]
}

const valuesOf: Record<string, readonly Column[]> = {
  "bp-at-target": [pressure.bloodPressure, pressure.taken, pressure.target, pressure.classes],
  "bp-under-140-90": [pressure.lowestOfDay, pressure.countedDay, pressure.classes],
  "pressure-measured": [pressure.bloodPressure, pressure.taken],
  "plan-when-high": [
    pressure.bloodPressure,
    pressure.taken,
    pressure.quarterAgo,
    pressure.planned,
    pressure.classes,
  ],
  "uncontrolled-on-several-classes": [
    pressure.bloodPressure,
    pressure.taken,
    pressure.target,
    pressure.classes,
    pressure.newestClass,
  ],
  "untreated-above-target": [
    pressure.bloodPressure,
    pressure.taken,
    pressure.target,
    kidney.filtration,
    kidney.urineAlbumin,
  ],
  "home-monitoring": [pressure.homeAverage, pressure.bloodPressure, pressure.taken],
  "ras-blocker-in-albuminuria": [
    kidney.urineCategory,
    kidney.urineAlbumin,
    kidney.filtration,
    pressure.rasBlocker,
    kidney.potassium,
  ],
  "sglt2-in-ckd": [kidney.filtration, kidney.urineAlbumin, kidney.riskCell, pressure.classes],
  "diet-sodium-within-limit": [kidney.sodium, kidney.sodiumFrom, pressure.bloodPressure, pressure.taken],
  "seen-by-dietitian": [kidney.dietitianSeen, kidney.filtration, kidney.sodium, kidney.potassium],
  "acr-tested": [kidney.urineLast, kidney.urineAlbumin, kidney.filtration],
  "kidney-tests-in-diabetes": [kidney.egfrTested, kidney.acrTested, kidney.filtration, kidney.urineAlbumin],
  "monitoring-on-schedule": [kidney.riskCell, kidney.testsDone, kidney.urineLast, kidney.filtration],
  "fast-decline": [kidney.slope, kidney.slopeDays, kidney.filtration, kidney.urineAlbumin],
  "failure-risk": [kidney.failureRisk, kidney.failureRiskLater, kidney.filtration, kidney.urineAlbumin],
  "ras-start-checked": [pressure.daysToCheck, kidney.potassium, kidney.filtration, pressure.rasBlocker],
  "followed-after-stopping": [pressure.lastCounted, pressure.bloodPressure, pressure.classes],
  "abrupt-stop": [pressure.lastCounted, pressure.bloodPressure, pressure.classes],
  "potassium-high-on-ras": [kidney.potassium, kidney.filtration, pressure.kinds],
  "dual-ras-blockade": [pressure.kinds, kidney.potassium, kidney.filtration],
  "low-pressure-on-drugs": [pressure.bloodPressure, pressure.taken, pressure.classes],
}

/**
 * The columns of a list: the values the measure looks at, the standings or reasons where they say why, and the next visit
 * of those who want attention.
 */
export function columnsOf(
  measure: WordedMeasure,
  list: { shown: ListedStanding | null; isRunning: boolean },
): readonly Column[] {
  const isWanted =
    list.shown === measureWords(measure).attention || list.shown === "unknown" || list.shown === null
  const ahead = list.isRunning && isWanted ? [nextVisit] : []
  const values = valuesOf[measure.id] ?? [pressure.bloodPressure, kidney.filtration, kidney.urineAlbumin]
  return [age, ...why(measure, list.shown), ...values, clinician, ...ahead]
}

function why(measure: WordedMeasure, shown: ListedStanding | null): Column[] {
  switch (shown) {
    case null:
      return [fromTo(measure)]
    case "counted":
      return [standing(measure)]
    case "excluded":
    case "unknown":
    case "exception":
      return [reasons]
    case "met":
    case "not met":
    case "outside":
      return []
  }
}

function standing(measure: WordedMeasure): Column {
  return {
    head: "Stands",
    cell: (one) => (one.standing === null ? null : standingWords(measure, one.standing)),
  }
}

function fromTo(measure: WordedMeasure): Column {
  const words = (place: Standing | null) =>
    place === null ? "not in the panel" : standingWords(measure, place)
  return {
    head: "From, to",
    isLong: true,
    cell: (one) => {
      const because = one.standing === null ? one.panel_reason : (one.reasons[0] ?? null)
      return `${words(one.earlier)} \u2192 ${words(one.standing)}${because === null ? "" : `: ${because}`}`
    },
  }
}
