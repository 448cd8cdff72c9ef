import { timeOf, type Day } from "./calendar"
import { dietarySodiumMg } from "./sodium"
import type { DrugClass } from "./formulary"
import { nextId, type Life } from "./life"
import type { Random } from "./random"

export type Pressure = { systolic: number; diastolic: number }

/** Fall of the systolic pressure at full dose of one class, mmHg: judged from trials of single drugs. */
const fullEffect: Record<DrugClass, number> = {
  ras_blocker: 8.5,
  calcium_channel_blocker: 9.5,
  diuretic: 8.5,
  mineralocorticoid_antagonist: 8,
  beta_blocker: 6,
  alpha1_blocker: 6,
  central_agonist: 7,
  vasodilator: 8,
}

/**
 * The pressure a person would have away from the office on a day: untreated pressure, less what the drugs really
 * taken do, plus what salt and winter add.
 */
export function truePressure(life: Life, day: Day): Pressure {
  const { person } = life
  const helped = life.homeFrom !== null && life.homeFrom <= day && day <= life.homeUntil ? 0.18 : 0
  const taken = Math.min(1, person.adherence + helped) * person.responsiveness
  let fall = 0
  let share = 1
  for (const course of life.regimen) {
    const last = course.drug.steps.length - 1
    const dose = 0.65 + (last === 0 ? 0.35 : (0.35 * course.step) / last)
    for (const drugClass of course.drug.classes) {
      fall += fullEffect[drugClass] * dose * share * taken
      share *= 0.93
    }
  }
  const salt = ((dietarySodiumMg(life, day) - 3600) / 1000) * 2.2
  const winter = 1.3 * seasonOf(day)
  const years = (day - life.period.start) / 365.25
  return {
    systolic: life.untreated.systolic - fall + salt + winter + 0.4 * years,
    diastolic: life.untreated.diastolic - fall * 0.52 + salt * 0.45 + winter * 0.4 - 0.3 * years,
  }
}

/** Between -1 in midsummer and 1 in midwinter, as two straight slopes. */
function seasonOf(day: Day): number {
  const partOfYear = (((day - 15) % 365.25) + 365.25) % 365.25
  return Math.abs(partOfYear / 182.625 - 1) * 2 - 1
}

const firstMinute = 8 * 60

/**
 * Takes and records the pressure of an office visit: one to three readings a few minutes apart, falling a little.
 * Returns their mean.
 */
export function takeOfficePressure(life: Life, day: Day): Pressure {
  const { person, random } = life
  const base = truePressure(life, day)
  const visit = { systolic: random.normal(0, 8), diastolic: random.normal(0, 4.5) }
  const count = random.weigh(readingCounts).count
  const minute = firstMinute + random.whole(0, 480)
  const taken: Pressure[] = []
  for (let i = 0; i < count; i++) {
    const systolic =
      base.systolic + person.officeOffset.systolic + visit.systolic - i * 1.5 + random.normal(0, 4.5)
    const diastolic =
      base.diastolic + person.officeOffset.diastolic + visit.diastolic - i * 0.8 + random.normal(0, 3)
    const reading = tidy({
      systolic: roundedByHand(systolic, random),
      diastolic: roundedByHand(diastolic, random),
    })
    taken.push(reading)
    life.rows.readings.push({
      reading_id: person.site === "Northgate" ? nextId(life, "R") : "",
      patient_id: person.id,
      taken_at: random.chance(0.03) ? timeOf(day, 0).slice(0, 10) : timeOf(day, minute + i * 3),
      ...reading,
      setting: person.site === "Northgate" ? "office" : "Office",
      pulse: random.chance(0.7) ? Math.round(random.normal(72, 10)) : "",
    })
  }
  const mean = meanOf(taken)
  life.notes.office.push({
    day,
    ...mean,
    ...lowestOf(taken),
  })
  return mean
}

const readingCounts = [
  { count: 1, weight: 34 },
  { count: 2, weight: 42 },
  { count: 3, weight: 24 },
] as const

/** One 24-hour monitoring: its mean lies a little under the day-time pressure. */
export function takeAmbulatoryPressure(life: Life, day: Day): Pressure {
  const { random } = life
  const base = truePressure(life, day)
  const reading = tidy({
    systolic: Math.round(random.normal(base.systolic - 3, 4)),
    diastolic: Math.round(random.normal(base.diastolic - 3, 2.5)),
  })
  life.rows.readings.push({
    reading_id: nextId(life, "A"),
    patient_id: life.person.id,
    taken_at: timeOf(day, 9 * 60 + random.whole(0, 90)),
    ...reading,
    setting: "ambulatory",
    pulse: Math.round(random.normal(68, 8)),
  })
  life.notes.ambulatory.push({ day, ...reading })
  return reading
}

/** A reading of an emergency room, ward or dialysis station, which the definitions never count. */
export function takeUncountedPressure(options: {
  life: Life
  day: Day
  setting: "emergency" | "inpatient" | "dialysis"
  shift: number
}): void {
  const { life, day, setting, shift } = options
  const { random } = life
  const base = truePressure(life, day)
  const reading = tidy({
    systolic: Math.round(random.normal(base.systolic + shift, 14)),
    diastolic: Math.round(random.normal(base.diastolic + shift * 0.4, 8)),
  })
  life.rows.readings.push({
    patient_id: life.person.id,
    taken_at: timeOf(day, random.whole(6 * 60, 22 * 60 - 1)),
    ...reading,
    setting,
    pulse: Math.round(random.normal(84, 12)),
  })
}

export function meanOf(readings: readonly Pressure[]): Pressure {
  const sum = readings.reduce(
    (total, reading) => ({
      systolic: total.systolic + reading.systolic,
      diastolic: total.diastolic + reading.diastolic,
    }),
    { systolic: 0, diastolic: 0 },
  )
  return { systolic: sum.systolic / readings.length, diastolic: sum.diastolic / readings.length }
}

/** The lowest of each, which may come from different readings. */
export function lowestOf(readings: readonly Pressure[]): { lowestSystolic: number; lowestDiastolic: number } {
  return {
    lowestSystolic: Math.min(...readings.map((reading) => reading.systolic)),
    lowestDiastolic: Math.min(...readings.map((reading) => reading.diastolic)),
  }
}

/** Hands round to even numbers, and sometimes to tens. */
function roundedByHand(value: number, random: Random): number {
  const style = random.unit()
  if (style < 0.12) return Math.round(value / 10) * 10
  return style < 0.72 ? Math.round(value / 2) * 2 : Math.round(value)
}

/** Keeps an invented pair inside what a body and the contract allow. */
export function tidy(reading: Pressure): Pressure {
  const systolic = Math.min(250, Math.max(74, reading.systolic))
  const diastolic = Math.min(140, Math.max(38, Math.min(systolic - 14, reading.diastolic)))
  return { systolic, diastolic }
}
