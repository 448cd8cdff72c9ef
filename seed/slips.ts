import { textOf, wholeYearsBetween, type Day } from "./calendar"
import { creatinineMgDlFor, egfrFor } from "./kidney"
import type { Course, Life } from "./life"
import { endCourse, startCourse } from "./orders"
import { writeProblem } from "./problems"
import type { Random } from "./random"
import { writeAllergy } from "./ras-blockade"
import { aceInhibitors, arbs } from "./single-drugs"

/**
 * What goes wrong now and then in every clinic, and is seen only by someone who looks across all of it. The draws come
 * from a stream of their own, so that the rest of a life is told as if nothing had.
 */
export function sufferSlips(life: Life, random: Random): void {
  const ras = life.regimen.find((course) => course.drug.rasKind !== null)
  if (ras) {
    startSecondRasBlocker(life, ras, random)
    forgetAngioedema(life, ras, random)
    becomePregnant(life, random)
  }
  raiseCreatinineAfterStart(life, random)
  stopSuddenly(life, random)
}

/** Another clinic starts the other kind of RAS blocker, and nobody ends the first. */
function startSecondRasBlocker(life: Life, ras: Course, random: Random): void {
  const { through } = life.period
  const earliest = Math.max(ras.startedOn, life.period.start) + 30
  if (earliest >= through - 3 || life.rasBarrier.both || !random.chance(0.008)) return
  const drugs = ras.drug.rasKind === "arb" ? aceInhibitors : arbs
  startCourse(life, { drug: random.weigh(drugs), step: 0, day: random.whole(earliest, through - 3) })
}

/** The angioedema was written down when it happened, years before the drug was tried again. */
function forgetAngioedema(life: Life, ras: Course, random: Random): void {
  if (life.rasBarrier.aceInhibitor || !random.chance(0.003)) return
  writeAllergy(life, {
    substance: random.pick(["lisinopril", "enalapril", "ACE inhibitors"]),
    reaction: "angioedema",
    kind: "allergy",
    day: Math.max(ras.startedOn - random.whole(300, 2000), life.person.birth + 7000),
  })
}

function becomePregnant(life: Life, random: Random): void {
  const { person, period } = life
  const age = (period.through - person.birth) / 365.25
  if (person.bodySex !== "female" || age >= 45 || !random.chance(0.06)) return
  writeProblem(life, {
    problem: { code: "Z34.90", description: "Encounter for supervision of normal pregnancy" },
    onset: period.through - random.whole(8, 40),
  })
}

/** The first creatinine after a start has risen by more than is expected. */
function raiseCreatinineAfterStart(life: Life, random: Random): void {
  const { period, person, rows, notes } = life
  const start = notes.rasStarts.at(-1)
  if (!start?.checkedAfterDays || start.day < period.through - 90 || !random.chance(0.12)) return
  const day = start.day + start.checkedAfterDays
  const rise = random.between(1.4, 1.7)
  const ageYears = Math.max(18, wholeYearsBetween(person.birth, day))
  const found = notes.egfr.find((note) => note.day === day)
  if (!found) return
  const usual = creatinineMgDlFor({ egfr: found.egfr, ageYears, sex: person.bodySex })
  found.egfr = egfrFor({ creatinineMgDl: usual * rise, ageYears, sex: person.bodySex })
  for (const [place, row] of rows.labs.entries()) {
    if (!String(row.collected_at).startsWith(textOf(day))) continue
    if (isCreatinine(row.test)) rows.labs[place] = { ...row, value: risen(row.value, rise) }
    if (isReportedEgfr(row.test)) rows.labs[place] = { ...row, value: Math.max(2, Math.round(found.egfr)) }
  }
}

/** As many decimals as the laboratory gave. */
function risen(value: unknown, rise: number): string {
  const decimals = String(value).split(".")[1]?.length ?? 0
  return (Number(value) * rise).toFixed(decimals)
}

function isCreatinine(test: unknown): boolean {
  return test === "creatinine" || test === "2160-0" || test === "14682-9"
}

function isReportedEgfr(test: unknown): boolean {
  return test === "egfr" || test === "98979-8"
}

/** A beta blocker or central agonist that runs out or is left off, with no step down. */
function stopSuddenly(life: Life, random: Random): void {
  const { through } = life.period
  for (const course of [...life.regimen]) {
    const isToBeTapered = course.drug.classes.some(
      (one) => one === "beta_blocker" || one === "central_agonist",
    )
    if (!isToBeTapered || course.startedOn > through - 120 || !random.chance(0.12)) continue
    const earliest: Day = Math.max(course.startedOn + 60, life.period.start)
    const reason = random.pick(["ran out", "patient's wish", "tired", "", ""])
    endCourse(life, course, { day: random.whole(earliest, through - 1), reason })
  }
}
