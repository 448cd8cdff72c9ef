import type { SnapshotMeta } from "../../../../lib/engine/snapshot-meta"
import { wordedMeasures } from "../../../../lib/measures/worded-measures"
import type { EvidenceFact } from "../../../../lib/questions/evidence-fact"
import { shortAllergyWords } from "../../../../lib/speech/allergy-words"
import { cautionSentence } from "../../../../lib/speech/caution-words"
import { counted, day, dayInFull, oneDecimal, sentenceCase } from "../../../../lib/speech/format"
import { standingWords } from "../../../../lib/speech/measure-words"
import { standingKind, type StandingKind } from "../../../../lib/speech/standing-kind"
import { classWords } from "../../../_ui/class-words"
import { sexWords } from "../../../_ui/sex-words"
import { doseWords } from "./drug-words"
import { factPhrase } from "./evidence-words"
import type { PatientAnswers } from "./patient-answers"
import { problemListWords, stageWords } from "./person-words"

const absent = "not on record"

type Answers = Pick<PatientAnswers, "person" | "line" | "held" | "allergies">

export type SummaryOf = {
  answers: Answers
  settings: SnapshotMeta["settings"]
  asOf: string
  /** Whether the day is the latest with data: the next visit is known of today alone. */
  isRunning: boolean
}

/**
 * What the screen of one person says, as lines of plain text for a note; every value is one the screen has.
 * Name, number and birth date are left out, as the note already stands in somebody's record. Spaces and signs are plain
 * ones, since not every record keeps others.
 */
export function noteSummary(of: SummaryOf): string {
  const { answers, asOf } = of
  return [
    `Summary as of ${dayInFull(asOf)} (name and number left out)`,
    ...who(answers),
    ...kidney(answers),
    ...pressureLines(answers),
    ...drugs(answers),
    `Potassium: ${said(fact(answers, "potassium"), answers, "potassium ")}`,
    `Sodium in the diet: ${sodium(answers)}`,
    `Allergies and intolerances: ${answers.allergies.map(shortAllergyWords).join(", ") || "none on record"}`,
    ...listedLines("Cautions", answers.held.cautions.map(cautionSentence), "none raised"),
    ...standings(of),
    ...(of.isRunning ? [`Next visit: ${nextVisit(answers)}`] : []),
    `From the clinic's records by Filtrate as of ${dayInFull(asOf)}; check before use.`,
  ]
    .map((line) => line.replaceAll("\u00a0", " ").replaceAll("\u2212", "-"))
    .join("\n")
}

function who({ person }: Answers): string[] {
  const age = person.age_years === null ? `age ${absent}` : `${person.age_years} years`
  const problems = problemListWords(person)
  const outside = person.in_panel === true ? [] : ["Not in the panel on this day; no measure asks."]
  return [`${age}, ${sexWords(person.sex)}`, ...(problems === "" ? [] : [problems]), ...outside]
}

function kidney(answers: Answers): string[] {
  const { person } = answers
  const egfr = fact(answers, "egfr")
  const urine = fact(answers, "urine")
  return [
    `Kidney: ${stageWords(person)}`,
    `eGFR: ${person.egfr === null || egfr === null ? `${absent} in the window` : `${person.egfr} mL/min/1.73 m² (${person.g ?? ""}) on ${dayOf(egfr)}`}`,
    `Slope of eGFR: ${slope(person)}`,
    `Urine: ${said(urine, answers, "")}`,
  ]
}

function slope(person: Answers["person"]): string {
  const { slope, slope_points: points, slope_from: from, slope_to: to } = person
  if (slope === null || points === null || from === null || to === null) return "not computable"
  return `${oneDecimal(slope)} mL/min/1.73 m² a year, ${counted(points, "day", "days")} with a value, ${day(from)} to ${day(to)}`
}

function pressureLines(answers: Answers): string[] {
  const represents = fact(answers, "representative")
  if (represents !== null) return [`Pressure (mmHg): ${said(represents, answers, "")}`]
  const latest = fact(answers, "latest counted")
  return [`Pressure (mmHg): ${latest === null ? absent : said(latest, answers, "")}`]
}

function drugs({ line }: Answers): string[] {
  const active = line.courses.filter((course) => course.is_active)
  const classes = [...new Set(active.map((course) => course.class))].toSorted(lastWhereNull)
  const words = classes.map((name) => {
    const ofClass = active.filter((course) => course.class === name)
    const told = ofClass.map((course) => {
      const dose = doseWords(course, course.step_days.length - 1)
      return `${course.drug} ${dose === "" ? "(dose not on record)" : dose}, since ${day(course.started_on)}`
    })
    return `${name === null ? "Counted for no class" : sentenceCase(classWords(name))}: ${told.join("; ")}`
  })
  return listedLines("Active drugs by class", words, "none on record")
}

function lastWhereNull(one: string | null, other: string | null): number {
  if (one === null || other === null) return Number(one === null) - Number(other === null)
  return one < other ? -1 : 1
}

function sodium(answers: Answers): string {
  const mean = fact(answers, "diet mean")
  if (mean !== null) return said(mean, answers, "")
  return said(fact(answers, "last diet record"), answers, "")
}

function standings({ answers, settings }: SummaryOf): string[] {
  const of = (kind: StandingKind) =>
    wordedMeasures(settings).flatMap((measure) => {
      const held = answers.held.standings.find((one) => one.measure_id === measure.id)
      if (held === undefined || standingKind(measure, held.standing) !== kind) return []
      return [`${measure.name}: ${standingWords(measure, held.standing)}`]
    })
  if (answers.held.standings.length === 0) return []
  return [
    ...listedLines("Measures that want attention", of("wanting"), "none"),
    ...listedLines("Measures not known", of("unknown"), "none"),
  ]
}

function nextVisit({ person }: Answers): string {
  return person.next_visit_on === null ? "none booked" : day(person.next_visit_on)
}

/** A heading with its lines, each with a dash before it; on one line where there is none. */
function listedLines(heading: string, lines: readonly string[], none: string): string[] {
  return lines.length === 0 ? [`${heading}: ${none}`] : [`${heading}:`, ...lines.map((line) => `- ${line}`)]
}

function fact({ held }: Answers, topic: EvidenceFact["topic"]): EvidenceFact | null {
  return held.evidence.find((one) => one.topic === topic) ?? null
}

/** A fact as the screen says it, without the words that the line already begins with. */
function said(of: EvidenceFact | null, { person }: Answers, begins: string): string {
  if (of === null) return absent
  const limits = { systolic: person.systolic_limit, diastolic: person.diastolic_limit }
  const { value, rest } = factPhrase(of, limits)
  return `${value.replace(begins, "")}${rest === "" ? "" : `, ${rest}`}`
}

function dayOf(of: EvidenceFact): string {
  return of.day === null ? absent : day(of.day)
}
