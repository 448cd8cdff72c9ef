import type { ReactNode } from "react"
import { count, day, lab, pressure, sentenceCase } from "../../../_ui/format"
import { PressureMark } from "../../../_ui/pressure-mark"
import type { Standing } from "../../../../lib/domain/standings"
import type { Measure } from "../../../../lib/measures/types"
import type { MeasurePerson } from "../../../../lib/questions/measure-people"
import { standingWords } from "../../measure-words"

/** One column of a list of people. `label` stands before the value on a phone, `absent` where there is none. */
export type Column = {
  head: string
  unit?: string
  label?: string
  isNumber?: boolean
  isLong?: boolean
  absent?: string
  cell: (person: MeasurePerson) => ReactNode
}

const age: Column = { head: "Age", label: "age", isNumber: true, cell: (one) => count(one.age_years) }

const clinician: Column = {
  head: "Clinician",
  isLong: true,
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

const from: Column = {
  head: "From",
  absent: " ",
  cell: (one) => (one.bp_source === null ? null : <PressureMark source={one.bp_source} />),
}

const pressureOn: Column = {
  head: "Pressure on",
  label: "on",
  absent: " ",
  isNumber: true,
  cell: (one) => (one.bp_on === null ? null : day(one.bp_on)),
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
      : `${count(one.classes.length)}: ${one.classes.map((word) => word.replaceAll("_", " ")).join(", ")}`,
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
  unit: "mL/min/1.73 m\u00b2",
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
  isNumber: true,
  absent: "no result",
  cell: (one) =>
    one.potassium === null
      ? null
      : lab({ number: one.potassium, comparator: one.potassium_comparator, unit: "", decimals: 1 }).trim(),
}

const potassiumOn: Column = {
  head: "Potassium on",
  label: "on",
  isNumber: true,
  absent: " ",
  cell: (one) => (one.potassium_on === null ? null : day(one.potassium_on)),
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
  "bp-at-target": [bloodPressure, from, pressureOn, target, classes],
  "bp-under-140-90": [lowestOfDay, countedDay, classes],
  "pressure-measured": [bloodPressure, from, pressureOn],
  "uncontrolled-on-several-classes": [bloodPressure, from, pressureOn, target, classes, newestClass],
  "ras-blocker-in-albuminuria": [urineCategory, urineAlbumin, filtration, rasBlocker, potassium, potassiumOn],
  "acr-tested": [urineLast, urineAlbumin, filtration],
}

/** The columns of a list: the values the measure looks at, and the reasons or the two standings where they say why. */
export function columnsOf(
  measure: Measure,
  list: { shown: Standing | null; isRunning: boolean },
): readonly Column[] {
  const why =
    list.shown === null
      ? [fromTo(measure)]
      : list.shown === "excluded" || list.shown === "unknown" || list.shown === "exception"
        ? [reasons]
        : []
  const ahead = list.isRunning ? [nextVisit] : []
  return [
    age,
    ...why,
    ...(valuesOf[measure.id] ?? [bloodPressure, filtration, urineAlbumin]),
    clinician,
    ...ahead,
  ]
}

function fromTo(measure: Measure): Column {
  const words = (person: MeasurePerson, standing: Standing | null) =>
    standing === null ? (person.panel_reason ?? "not in the panel") : standingWords(measure, standing)
  return {
    head: "From, to",
    isLong: true,
    cell: (one) =>
      `${one.earlier === null ? "not in the panel" : words(one, one.earlier)} \u2192 ${words(one, one.standing)}`,
  }
}
