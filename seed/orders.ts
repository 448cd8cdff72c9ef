import { textOf, type Day } from "./calendar"
import { writeDrug, type Drug } from "./formulary"
import { nextId, type Course, type Life } from "./life"

/** Starts a drug at one of its doses. */
export function startCourse(life: Life, options: { drug: Drug; step: number; day: Day }): void {
  const { drug, step, day } = options
  life.regimen.push({ drug, step, startedOn: day, text: textFor(life, drug, step) })
}

/** Ends a course on its first day without the drug, and writes its order or orders. */
export function endCourse(life: Life, course: Course, options: { day: Day; reason: string }): void {
  life.regimen = life.regimen.filter((open) => open !== course)
  writeCourse(life, course, { stopped: options.day, reason: options.reason })
}

/** Another dose of the same drug: the old order ends and a new one begins on the same day. */
export function changeStep(life: Life, course: Course, options: { step: number; day: Day }): void {
  if (course.startedOn >= options.day) {
    course.step = options.step
    course.text = textFor(life, course.drug, options.step)
    return
  }
  endCourse(life, course, { day: options.day, reason: life.random.chance(0.5) ? "dose changed" : "" })
  life.regimen.push({
    ...course,
    step: options.step,
    startedOn: options.day,
    text: textFor(life, course.drug, options.step),
  })
}

/** Writes the orders still open when the telling stops. A person who died or left keeps them open, as records do. */
export function writeOpenCourses(life: Life): void {
  for (const course of life.regimen) writeCourse(life, course, { stopped: null, reason: "" })
}

function textFor(life: Life, drug: Drug, step: number): string {
  return writeDrug({ drug, step: drug.steps[step] ?? "", random: life.random })
}

/** Supplies reach at most this far back: older refills are not in the records any more. */
const refillDays = 90

function writeCourse(life: Life, course: Course, end: { stopped: Day | null; reason: string }): void {
  const to = end.stopped ?? life.period.through + 1
  if (to <= course.startedOn) return
  life.notes.courses.push({
    classes: course.drug.classes,
    isAceOrArb: course.drug.rasKind !== null,
    from: course.startedOn,
    to,
  })
  if (life.person.refills) return writeRefills(life, course, end)
  life.rows.medications.push({
    ...orderRow(life, course),
    started_on: textOf(course.startedOn),
    stopped_on: end.stopped === null ? "" : textOf(end.stopped),
    stop_reason: end.reason,
  })
}

/** A course as the pharmacy sees it: an order for 90 days, renewed a little early or late, the last one ended. */
function writeRefills(life: Life, course: Course, end: { stopped: Day | null; reason: string }): void {
  const to = end.stopped ?? life.period.through + 1
  let from = course.startedOn
  while (from < life.period.runIn - refillDays) from += refillDays
  while (from < to) {
    const next = from + refillDays + life.random.whole(-9, 14)
    const isLast = next >= to
    life.rows.medications.push({
      ...orderRow(life, course),
      started_on: textOf(from),
      stopped_on: isLast && end.stopped !== null ? textOf(end.stopped) : "",
      stop_reason: isLast ? end.reason : "",
      supply_days: refillDays,
    })
    from = next
  }
}

function orderRow(life: Life, course: Course) {
  const { random, person } = life
  const { drug } = course
  const step = drug.steps[course.step]
  const hasDose = random.chance(0.8)
  const hasCode = random.chance(person.site === "Northgate" ? 0.35 : 0.15)
  return {
    order_id: nextId(life, "M"),
    patient_id: person.id,
    drug: course.text,
    code_system: hasCode ? "atc" : "",
    code: hasCode ? drug.atc : "",
    dose: hasDose ? (typeof step === "number" ? step : 1) : "",
    dose_unit: hasDose ? drug.unit : "",
    times_per_day: random.chance(0.85) ? drug.timesPerDay : "",
    as_needed: random.chance(0.4) ? "no" : "",
    route: random.chance(0.35) ? "oral" : "",
  }
}
