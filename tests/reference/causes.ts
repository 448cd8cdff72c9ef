import { clinicalOn, type Clinical } from "./clinical"
import type { OpenFile } from "./csv"
import { day, isInLastMonths, minusMonths, type Day } from "./day"
import { doseChanges } from "./doses"
import {
  coursesOfClass,
  coursesOfKinds,
  isActive,
  lastDayBeforeStop,
  lastDayOfSupply,
  startsAfterPause,
  stopsUpTo,
  type Course,
} from "./drugs"
import { compare, zero } from "./exact"
import { egfrTestDays } from "./kidney"
import { isInPanel } from "./panel"
import { peopleOf, type Person } from "./people"
import { countedReadings, latestHomeAverage } from "./pressure"
import { testsAsked } from "./questions-of-kidney"
import { standingOf, type Question, type Standing } from "./question"
import { rasStarts } from "./ras-blockers"
import { readExtract } from "./read-extract"
import { questions } from "./standings"
import { decidingResult } from "./urine"

/** How one person moved in one measure, and why. */
export type Moved = { patient_id: string; measure_id: string; change: string; cause: string }

/** Who moved between two days of an extract. Days are YYYY-MM-DD. */
export function openCauses(extract: {
  open: OpenFile
  timeZone: string
  importDay: string
}): (earlier: string, later: string) => Moved[] {
  const people = peopleOf(readExtract({ ...extract, importDay: day(extract.importDay) }).facts)
  const known = new Map<string, Clinical | null>()
  function clinical(person: Person, on: Day): Clinical | null {
    const key = `${person.patientId} ${on}`
    const found = known.get(key)
    if (found !== undefined) return found
    const made = isInPanel(person, on) ? clinicalOn(person, on) : null
    known.set(key, made)
    return made
  }
  return (earlierDay, laterDay) =>
    people.flatMap((person) => {
      const [earlier, later] = [clinical(person, day(earlierDay)), clinical(person, day(laterDay))]
      return questions.flatMap((question) => {
        const moved = moveOf(question, earlier, later)
        return moved ? [{ patient_id: person.patientId, measure_id: question.id, ...moved }] : []
      })
    })
}

function moveOf(
  question: Question,
  earlier: Clinical | null,
  later: Clinical | null,
): { change: string; cause: string } | null {
  const [before, now] = [earlier, later].map((one) => (one ? standingOf(question, one) : null))
  const isIn = (standing: Standing | null | undefined) =>
    standing === "met" || standing === "not met" || (standing === "unknown" && question.direction === "up")
  if (isIn(before) && !isIn(now)) return { change: "left", cause: ofStanding(now) }
  if (!isIn(before) && isIn(now)) return { change: "joined", cause: ofStanding(before) }
  if (!isIn(before) || !earlier || !later || (before === "met") === (now === "met")) return null
  const isGain = now === "met"
  const isNews = newsOf[question.id]?.({ later, earlier, isGain }) ?? false
  return { change: isGain ? "gained" : "lost", cause: isNews ? "news" : "time" }
}

function ofStanding(standing: Standing | null | undefined): string {
  if (standing === "outside") return "population"
  if (standing === "excluded") return "exclusion"
  if (standing === "exception") return "exception"
  return standing === "unknown" ? "measured" : "panel"
}

type Step = { later: Clinical; earlier: Clinical; isGain: boolean }

/** Whether a fact that the move may rest on is dated after the earlier day, measure by measure. */
const newsOf: Record<string, (step: Step) => boolean> = {
  "bp-at-target": isPressureNew,
  "bp-under-140-90": (step) =>
    isAnyNew(
      step,
      countedReadings(step.later.person.readings)
        .map(dayOf)
        .filter((one) => isInLastMonths(one, step.later.on, 12)),
    ),
  "pressure-measured": (step) => step.isGain && isPressureNew(step),
  "plan-when-high": (step) => step.isGain && isAnyNew(step, stepsOf(step.later)),
  "uncontrolled-on-several-classes": isPressureNew,
  "untreated-above-target": (step) => isPressureNew(step) || isOrderNew(step, withClass(step), !step.isGain),
  "low-pressure-on-drugs": isPressureNew,
  "home-monitoring": (step) =>
    step.isGain && isNew(step, latestHomeAverage(step.later.person.readings, step.later.on)?.on),
  "ras-blocker-in-albuminuria": (step) => isOrderNew(step, ofKinds(step, aceOrArb), step.isGain),
  "ras-start-checked": (step) =>
    rasStarts(step.later.courses).some(
      (start) =>
        start > step.later.person.registeredOn + 90 && start > step.earlier.on && start <= step.later.on - 28,
    ),
  "potassium-high-on-ras": (step) => isNew(step, step.later.potassium?.day),
  "dual-ras-blockade": (step) =>
    step.isGain ? isAnyNew(step, kindStarts(step)) : isOrderNew(step, ofKinds(step, rasKinds), false),
  "abrupt-stop": (step) =>
    isAnyNew(step, stopsOf(step, withdrawn)) ||
    (!step.isGain &&
      withdrawn.some((drugClass) => isOrderNew(step, coursesOfClass(step.later.courses, drugClass), true))),
  "followed-after-stopping": (step) =>
    stopsOf(step, classesOf(step.later.courses)).some(
      (stop) => stop > step.earlier.on && stop <= step.later.on - 30,
    ),
  "sglt2-in-ckd": (step) => isOrderNew(step, ofKinds(step, ["SGLT2 inhibitor"]), step.isGain),
  "fast-decline": (step) =>
    isAnyNew(
      step,
      step.later.egfrDays.map(dayOf).filter((one) => isInLastMonths(one, step.later.on, 24)),
    ),
  "failure-risk": (step) => isNew(step, step.later.egfr?.day) || isNew(step, acrOfRisk(step.later)),
  "seen-by-dietitian": (step) => step.isGain && isAnyNew(step, step.later.person.dietitianDays),
  "diet-sodium-within-limit": (step) => isAnyNew(step, step.later.sodium.map(dayOf)),
  "acr-tested": (step) => step.isGain && isAnyNew(step, step.later.urine.map(dayOf)),
  "kidney-tests-in-diabetes": (step) =>
    step.isGain &&
    (isAnyNew(step, egfrTestDays(step.later.person, step.later.on)) ||
      isAnyNew(step, step.later.urine.filter(({ test }) => test === "uacr").map(dayOf))),
  "monitoring-on-schedule": (step) =>
    isCellNew(step) ||
    (step.isGain &&
      (isAnyNew(step, egfrTestDays(step.later.person, step.later.on)) ||
        isAnyNew(step, step.later.urine.map(dayOf)))),
}

const aceOrArb = ["ACE inhibitor", "ARB"]
const rasKinds = [...aceOrArb, "direct renin inhibitor"]
const withdrawn = ["central_agonist", "beta_blocker"] as const

function isNew({ earlier, later }: Step, one: Day | null | undefined): boolean {
  return one !== null && one !== undefined && one > earlier.on && one <= later.on
}

function isAnyNew(step: Step, days: Day[]): boolean {
  return days.some((one) => isNew(step, one))
}

function dayOf(dated: { day: Day }): Day {
  return dated.day
}

function isPressureNew(step: Step): boolean {
  return isNew(step, step.later.pressure?.on)
}

/** A new start among the orders, or else a new stop that is on record and not just the end of a supply. */
function isOrderNew(step: Step, courses: Course[], isStart: boolean): boolean {
  if (isStart)
    return isAnyNew(
      step,
      courses.map(({ startedOn }) => startedOn),
    )
  return courses.some(
    ({ order }) => lastDayBeforeStop(order) <= lastDayOfSupply(order) && isNew(step, order.stoppedOn),
  )
}

function ofKinds({ later }: Step, kinds: readonly string[]): Course[] {
  return coursesOfKinds(later.courses, kinds)
}

function withClass({ later }: Step): Course[] {
  return later.courses.filter(({ ingredients }) => ingredients.some((each) => each.class !== null))
}

function classesOf(courses: Course[]) {
  return [...new Set(courses.flatMap(({ ingredients }) => ingredients.flatMap((each) => each.class ?? [])))]
}

/** The days on which a class or the dose of one of its drugs went up. */
function stepsOf({ courses, on }: Clinical): Day[] {
  const starts = classesOf(courses).flatMap((each) => startsAfterPause(coursesOfClass(courses, each)))
  const raises = doseChanges(courses, on).filter(({ isRaise }) => isRaise)
  return [...starts, ...raises.map(dayOf)].filter((one) => one > minusMonths(on, 3))
}

/** The days on which a kind of RAS blocker was active that was not the day before. */
function kindStarts(step: Step): Day[] {
  return rasKinds.flatMap((kind) => {
    const ofKind = ofKinds(step, [kind])
    return ofKind
      .map(({ startedOn }) => startedOn)
      .filter((start) => !ofKind.some((course) => isActive(course, start - 1)))
  })
}

function stopsOf({ later }: Step, classes: readonly Parameters<typeof coursesOfClass>[1][]): Day[] {
  return classes.flatMap((each) => stopsUpTo(coursesOfClass(later.courses, each), later.on))
}

function acrOfRisk({ egfr, urine }: Clinical): Day | undefined {
  return urine
    .filter((lab) => lab.test === "uacr" && compare(lab.value, zero) > 0)
    .filter((lab) => egfr !== null && Math.abs(lab.day - egfr.day) <= 183)
    .at(-1)?.day
}

/** Whether the tests asked for are others than before, and one of the results behind them is new. */
function isCellNew(step: Step): boolean {
  const { earlier, later } = step
  if (testsAsked(earlier) === testsAsked(later)) return false
  return isNew(step, later.egfr?.day) || isNew(step, decidingResult(later.urine, later.on)?.day)
}
