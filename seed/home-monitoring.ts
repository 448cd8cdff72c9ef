import { timeOf, type Day } from "./calendar"
import type { Life } from "./life"
import { lowestOf, meanOf, tidy, truePressure, type Pressure } from "./pressure"

/**
 * Draws when, if ever, a person measures at home: a few own a cuff from the start, many get one once the clinic
 * hands them out, more so when the pressure is high.
 */
export function drawHomePeriod(life: Life): void {
  const { person, period, random } = life
  if (!person.hasHypertension) return
  if (random.chance(0.055)) {
    life.homeFrom = person.registered + random.whole(0, 500)
  } else if (random.chance(life.untreated.systolic > 150 ? 0.48 : 0.34)) {
    const wait = random.wait(270)
    life.homeFrom = Math.max(period.homeCuffsFrom + wait, person.registered + 30 + wait / 3)
  }
  if (life.homeFrom === null) return
  life.homeFrom = Math.round(life.homeFrom)
  life.homeUntil = life.homeFrom + Math.round(random.wait(1500))
}

export function nextHomeDay(life: Life, day: Day): Day {
  return day + life.random.whole(18, 32)
}

/** One week or so of readings at home, mornings and evenings in pairs; some weeks are left unfinished. */
export function measureAtHome(life: Life, lastDay: Day): void {
  const { random, person } = life
  const isShort = random.chance(0.16)
  const days = isShort ? random.whole(1, 3) : random.whole(4, 8)
  const perDay = isShort ? 2 : 4
  const week = { systolic: random.normal(0, 3), diastolic: random.normal(0, 2) }
  const taken: Pressure[] = []
  let lastDayTaken: Pressure[] = []
  for (let back = days - 1; back >= 0; back--) {
    const day = lastDay - back
    lastDayTaken = []
    const base = truePressure(life, day)
    const morning = 6 * 60 + 30 + random.whole(0, 100)
    const evening = 18 * 60 + 30 + random.whole(0, 150)
    const minutes = perDay === 4 ? [morning, morning + 2, evening, evening + 2] : [morning, evening]
    for (const minute of minutes) {
      if (random.chance(0.04)) continue
      const reading = tidy({
        systolic: Math.round(random.normal(base.systolic + week.systolic, 7)),
        diastolic: Math.round(random.normal(base.diastolic + week.diastolic, 5)),
      })
      taken.push(reading)
      lastDayTaken.push(reading)
      life.rows.readings.push({
        patient_id: person.id,
        taken_at: timeOf(day, minute),
        ...reading,
        setting: "home",
        pulse: Math.round(random.normal(70, 8)),
      })
    }
  }
  if (taken.length === 0) return
  life.notes.home.push({
    day: lastDay,
    ...meanOf(taken),
    ...lowestOf(lastDayTaken.length > 0 ? lastDayTaken : taken),
    isValid: taken.length >= 12 && days >= 3,
  })
}
