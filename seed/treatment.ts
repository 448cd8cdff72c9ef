import type { Day } from "./calendar"
import { pills } from "./combination-pills"
import type { Drug, DrugClass } from "./formulary"
import { classCount, isOnClass, type Course, type Life } from "./life"
import { changeStep, endCourse, startCourse } from "./orders"
import type { Pressure } from "./pressure"
import { writeFalls } from "./problems"
import {
  aceInhibitors,
  alphaBlockers,
  arbs,
  betaBlockers,
  centralAgonists,
  channelBlockers,
  loopDiuretics,
  mras,
  thiazides,
  vasodilators,
} from "./single-drugs"

/** What a clinician has in front of them when deciding. */
export type Findings = { day: Day; pressure: Pressure | null; egfr: number; potassium: number | null }

/** Raises treatment at visits where the pressure is above goal, not always: inertia is as common as action. */
export function intensify(life: Life, findings: Findings): void {
  const { day, pressure, egfr } = findings
  if (pressure === null || life.palliativeFrom !== null) return
  const { random, person } = life
  const isStrict = random.chance(0.62)
  const above = Math.max(
    pressure.systolic - (isStrict ? 130 : 140),
    (pressure.diastolic - (isStrict ? 80 : 90)) * 1.4,
  )
  if (above < 0) return
  const age = (day - person.birth) / 365.25
  const willingness = (0.17 + 0.012 * above) * person.zeal * (age > 82 ? 0.6 : 1)
  if (!random.chance(Math.min(0.7, willingness))) return
  if (random.chance(0.45) && raiseDose(life, findings)) return
  const next = nextClass(life, findings)
  const limit = above > 20 ? 5 : above > 8 ? 4 : 3
  if (next === null || classCount(life) >= limit) {
    raiseDose(life, findings)
    return
  }
  addClass(life, { drugClass: next, day, egfr })
}

/** Takes something away when the pressure has fallen low. */
export function easeOff(life: Life, findings: Findings): void {
  const { day, pressure } = findings
  if (pressure === null || pressure.systolic >= 108 || !life.random.chance(0.45)) return
  const course = life.regimen.at(-1)
  if (!course) return
  const reason = life.random.pick(["low pressure", "dizzy on standing", "hypotension", "falls", ""])
  if (course.step > 0 && life.random.chance(0.5)) changeStep(life, course, { step: course.step - 1, day })
  else {
    endCourse(life, course, { day, reason })
    if (reason === "falls" || reason === "dizzy on standing") writeFalls(life, { day, reason })
  }
}

/** The drug classes somebody with this pressure has come to take before their story begins. */
export function startingRegimen(
  life: Life,
  options: { day: Day; egfr: number; isAlbuminuric: boolean },
): void {
  const { random, person } = life
  const need = (life.untreated.systolic - 122) / 8.6 + random.normal(0, 0.8) - (1 - person.adherence) * 1.2
  const wanted = Math.max(0, Math.min(5, Math.round(need * (person.hasHypertension ? 1 : 0.4))))
  const findings = { day: options.day, pressure: null, egfr: options.egfr, potassium: null }
  for (let i = 0; i < wanted; i++) {
    const drugClass = nextClass(life, findings)
    if (drugClass === null) break
    addClass(life, { drugClass, day: pastDay(life, options.day), egfr: options.egfr })
  }
  const isMissing = options.isAlbuminuric && !isOnClass(life, "ras_blocker") && !life.rasBarrier.both
  if (isMissing && random.chance(0.3))
    addClass(life, { drugClass: "ras_blocker", day: pastDay(life, options.day), egfr: options.egfr })
  for (const course of life.regimen) {
    course.step = Math.min(course.drug.steps.length - 1, random.whole(0, course.drug.steps.length - 1))
  }
}

function pastDay(life: Life, day: Day): Day {
  return day - life.random.whole(40, 7 * 365)
}

/** Adds one class, now and then by turning a drug already taken into a combination pill. */
export function addClass(life: Life, options: { drugClass: DrugClass; day: Day; egfr: number }): void {
  const { drugClass, day, egfr } = options
  const drug = life.random.weigh(choicesFor(life, drugClass, egfr))
  const partner = life.random.chance(0.3) ? partnerFor(life, drugClass) : null
  if (!partner || partner.course.startedOn >= day) return startCourse(life, { drug, step: 0, day })
  endCourse(life, partner.course, { day, reason: life.random.chance(0.4) ? "changed to combination" : "" })
  startCourse(life, { drug: partner.pill, step: 0, day })
}

function partnerFor(life: Life, drugClass: DrugClass): { course: Course; pill: Drug } | null {
  for (const course of life.regimen) {
    const pill = pills.find(
      (candidate) =>
        candidate.rasKind === course.drug.rasKind &&
        candidate.classes.length === course.drug.classes.length + 1 &&
        candidate.classes.includes(drugClass) &&
        course.drug.classes.every((held) => held !== drugClass && candidate.classes.includes(held)),
    )
    if (pill) return { course, pill }
  }
  return null
}

function raiseDose(life: Life, findings: Findings): boolean {
  const hasHighPotassium = (findings.potassium ?? 4) > 5.2
  const raisable = life.regimen.filter(
    (course) =>
      course.step < course.drug.steps.length - 1 &&
      !(
        hasHighPotassium &&
        (course.drug.rasKind !== null || course.drug.classes.includes("mineralocorticoid_antagonist"))
      ),
  )
  if (raisable.length === 0) return false
  const course = life.random.pick(raisable)
  changeStep(life, course, { step: course.step + 1, day: findings.day })
  return true
}

/** The order in which a kidney clinic reaches for the classes. */
function nextClass(life: Life, findings: Findings): DrugClass | null {
  const { person, random } = life
  const hasHighPotassium = (findings.potassium ?? 4) > 5
  const order: DrugClass[] = []
  if (!life.rasBarrier.both && !hasHighPotassium && life.rasStoppedOn === null) order.push("ras_blocker")
  const second: DrugClass[] = ["calcium_channel_blocker", "diuretic"]
  order.push(...(random.chance(0.55) ? second : second.reverse()))
  if (person.hasHeartFailure || person.hasAtrialFibrillation) order.unshift("beta_blocker")
  else order.push("beta_blocker")
  if (findings.egfr > 28 && !hasHighPotassium && random.chance(0.55))
    order.push("mineralocorticoid_antagonist")
  order.push(random.chance(0.55) ? "alpha1_blocker" : "vasodilator", "central_agonist", "vasodilator")
  return order.find((drugClass) => !isOnClass(life, drugClass)) ?? null
}

function choicesFor(life: Life, drugClass: DrugClass, egfr: number): readonly Drug[] {
  switch (drugClass) {
    case "ras_blocker":
      return life.rasBarrier.aceInhibitor || life.random.chance(0.52) ? arbs : aceInhibitors
    case "calcium_channel_blocker":
      return channelBlockers
    case "diuretic":
      return life.person.hasHeartFailure || egfr < 26 ? loopDiuretics : thiazides
    case "mineralocorticoid_antagonist":
      return mras
    case "beta_blocker":
      return betaBlockers
    case "alpha1_blocker":
      return alphaBlockers
    case "central_agonist":
      return centralAgonists
    case "vasodilator":
      return vasodilators
  }
}
