import type { ReactNode } from "react"
import { count, day, pressure, sentenceCase } from "../../../_ui/format"
import { classWords } from "../../../_ui/class-words"
import { PressureMark } from "../../../_ui/pressure-mark"
import type { Standing } from "../../../../lib/domain/standings"
import type { WordedMeasure } from "../../../../lib/measures/types"
import type { MeasurePerson } from "../../../../lib/questions/measure-people"
import { measureWords, standingWords } from "../../measure-words"
import type { ListedStanding } from "../search-params"

/** One column of a list of people. `label` stands before the value on a phone, `absent` where there is none. */
export type Column = {
  head: string
  unit?: string
  label?: string
  isNumber?: boolean
  /** A text that takes the room there is. */
  isLong?: boolean
  /** A name that may take two lines. */
  isFolding?: boolean
  absent?: string
  cell: (person: MeasurePerson) => ReactNode
}

const age: Column = { head: "Age", label: "age", isNumber: true, cell: (one) => count(one.age_years) }

const clinician: Column = {
  head: "Clinician",
  isFolding: true,
  absent: "no clinician",
  cell: (one) => one.clinician_name,
}

const bloodPressure: Column = {
  head: "Pressure",
  unit: "mmHg",
  isNumber: true,
  absent: "not measured",
  cell: (one) =>
    one.systolic === null || one.diastolic === null ? null : pressure(one.systolic, one.diastolic),
}

const taken: Column = {
  head: "Taken",
  absent: " ",
  cell: (one) =>
    one.bp_source === null || one.bp_on === null ? null : (
      <>
        <PressureMark source={one.bp_source} />, {day(one.bp_on)}
      </>
    ),
}

const target: Column = {
  head: "Target",
  unit: "below, mmHg",
  label: "target below",
  isNumber: true,
  absent: " ",
  cell: (one) =>
    one.systolic_limit === null || one.diastolic_limit === null
      ? null
      : pressure(one.systolic_limit, one.diastolic_limit),
}

const countedDay: Column = {
  head: "Day",
  label: "on",
  isNumber: true,
  absent: " ",
  cell: (one) => (one.counted_day === null ? null : day(one.counted_day)),
}

const lowestOfDay: Column = {
  head: "Lowest of the day",
  unit: "mmHg",
  label: "lowest",
  isNumber: true,
  absent: "not measured",
  cell: (one) =>
    one.counted_lowest_systolic === null || one.counted_lowest_diastolic === null
      ? null
      : pressure(one.counted_lowest_systolic, one.counted_lowest_diastolic),
}

const classes: Column = {
  head: "Classes",
  label: "classes",
  isLong: true,
  absent: "no class",
  cell: (one) =>
    one.classes.length === 0
      ? null
      : `${count(one.classes.length)}: ${one.classes.map(classWords).join(", ")}`,
}

const newestClass: Column = {
  head: "Newest class since",
  label: "newest class since",
  isNumber: true,
  absent: " ",
  cell: (one) => (one.newest_class_on === null ? null : day(one.newest_class_on)),
}

const filtration: Column = {
  head: "eGFR",
  unit: "mL/min/\u200b1.73\u00a0m\u00b2",
  label: "eGFR",
  isNumber: true,
  absent: "no result",
  cell: (one) => (one.egfr === null ? null : count(one.egfr)),
}

const urineAlbumin: Column = {
  head: "ACR",
  unit: "mg/g",
  label: "ACR",
  isNumber: true,
  absent: "no result",
  cell: (one) =>
    one.acr === null
      ? one.a === null
        ? null
        : "by PCR"
      : `${one.acr_comparator ?? ""}${one.acr < 10 ? one.acr.toFixed(1) : count(one.acr)}`,
}

const urineCategory: Column = {
  head: "Urine",
  label: "urine",
  absent: "no result",
  cell: (one) => (one.a === null || one.urine_on === null ? null : `${one.a} on ${day(one.urine_on)}`),
}

const urineLast: Column = {
  head: "Last urine albumin or protein",
  label: "last urine test",
  isNumber: true,
  absent: "never",
  cell: (one) => (one.urine_last_on === null ? null : day(one.urine_last_on)),
}

const rasBlocker: Column = {
  head: "ACE inhibitor or ARB",
  label: "ACE inhibitor or ARB:",
  isLong: true,
  cell: (one) => {
    if (one.ras_history === "on") return "on one"
    if (one.ras_history === "never") return "never tried"
    const drug = one.ras_stopped_drug === null ? "" : `${one.ras_stopped_drug} `
    const on = one.ras_stopped_on === null ? "" : ` ${day(one.ras_stopped_on)}`
    return `${drug}stopped${on}${one.ras_stop_reason === null ? "" : `: ${one.ras_stop_reason}`}`
  },
}

const potassium: Column = {
  head: "Potassium",
  unit: "mmol/L",
  label: "potassium",
  absent: "no result",
  cell: (one) =>
    one.potassium === null || one.potassium_on === null
      ? null
      : `${one.potassium_comparator ?? ""}${one.potassium.toFixed(1)} on ${day(one.potassium_on)}`,
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
  cell: (one) => (one.reasons.length === 0 ? null : sentenceCase(one.reasons.join("; "))),
}

const valuesOf: Record<string, readonly Column[]> = {
  "bp-at-target": [bloodPressure, taken, target, classes],
  "bp-under-140-90": [lowestOfDay, countedDay, classes],
  "pressure-measured": [bloodPressure, taken],
  "uncontrolled-on-several-classes": [bloodPressure, taken, target, classes, newestClass],
  "ras-blocker-in-albuminuria": [urineCategory, urineAlbumin, filtration, rasBlocker, potassium],
  "acr-tested": [urineLast, urineAlbumin, filtration],
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
  const values = valuesOf[measure.id] ?? [bloodPressure, filtration, urineAlbumin]
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
