import { startingFindings, type StartingGroupId } from "../../../lib/questions/starting-and-stopping-groups"
import type { KeptClass } from "../../../lib/questions/kept-classes"
import type { StartingPerson } from "../../../lib/questions/starting-and-stopping-people"
import type { StoppedClass } from "../../../lib/questions/stopped-classes"
import { counted, day, listed, pressure, sentenceCase } from "../../../lib/speech/format"
import { classWords } from "../../_ui/class-words"
import { placeWords } from "../../../lib/speech/pressure-place"
import { orderedWords } from "../drug-words"

const reasonWords: Readonly<Record<KeptClass["reason"], string>> = {
  heart_failure: "heart failure",
  atrial_fibrillation: "atrial fibrillation",
  albuminuria: "albuminuria",
}

/** What to look at in somebody on a list, a sentence each, and falls or dizziness on every list. */
export function findingsWords(person: StartingPerson, group: StartingGroupId): string[] {
  const found = startingFindings
    .filter((finding, place) => finding.group === group && finding.id !== "falls" && person.holds[place])
    .map(({ words }) => sentenceCase(words))
  const falls = person.fell_on === null ? [] : [`Falls or dizziness on record, ${day(person.fell_on)}`]
  return [...falls, ...found]
}

/** Why a class is there beside the pressure: "another reason: heart failure and atrial fibrillation"; null without one. */
export function keptWords(kept: readonly KeptClass[], name: string | null): string | null {
  const reasons = kept.filter((one) => one.class === name).map(({ reason }) => reasonWords[reason])
  return reasons.length === 0 ? null : `another reason: ${listed(reasons)}`
}

/** A drug that ended, under every class it counted for. */
export type StoppedDrug = { stop: StoppedClass; classes: string[] }

/** What somebody stopped, a pill of several classes once. */
export function stoppedDrugs(stops: readonly StoppedClass[]): StoppedDrug[] {
  const drugs = new Map<string, StoppedDrug>()
  for (const stop of stops) {
    const key = [stop.drug, stop.dose, stop.dose_unit, stop.times_per_day, stop.stopped_on].join(" ")
    const known = drugs.get(key)
    if (known) known.classes.push(stop.class)
    else drugs.set(key, { stop, classes: [stop.class] })
  }
  return [...drugs.values()]
}

/** "Amlodipine 10 mg, calcium channel blocker". */
export function stoppedDrugWords({ stop, classes }: StoppedDrug): string {
  const of = [...new Set(classes)].map((name) => classWords(name))
  return `${sentenceCase(stop.drug)}${orderedWords(stop)}, ${listed(of)}`
}

/** How it ended: "stopped 4 Jul 2026, 119 days ago: ankle swelling; no lower dose on record before". */
export function endWords(stop: StoppedClass): string {
  const ago = stop.days_ago === 0 ? "today" : `${counted(stop.days_ago, "day", "days")} ago`
  const ended = stop.is_run_out ? "ran out, no stop on record" : "stopped"
  const reason = stop.is_run_out ? "" : `: ${stop.stop_reason ?? "no reason on record"}`
  const taper = stop.is_tapered ? "lowered in the 30 days before" : "no lower dose on record before"
  return `${ended} ${day(stop.stopped_on)}, ${ago}${reason}; ${taper}`
}

/** The first reading since: "124/74 office, 3 Aug 2026"; "not measured since". */
export function sinceWords(stop: StoppedClass): string {
  const { measured_systolic: systolic, measured_diastolic: diastolic, measured_source: source } = stop
  if (stop.measured_on === null || systolic === null || diastolic === null || source === null)
    return "not measured since"
  const value = pressure(Math.round(systolic), Math.round(diastolic))
  return `first reading since: ${value} ${placeWords[source]}, ${day(stop.measured_on)}`
}

/** How old the pressure is on the day asked for. */
export function ageWords(days: number): string {
  return days === 0 ? "of that day" : `${counted(days, "day", "days")} old`
}

/** The urine category with what is known of it: "A2, confirmed". */
export function urineWords(person: StartingPerson): string | null {
  const { urine_category: category, albuminuria } = person
  if (category === null) return null
  return albuminuria === "confirmed" || albuminuria === "raised once"
    ? `${category}, ${albuminuria}`
    : category
}
