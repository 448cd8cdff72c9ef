import type { Day } from "./calendar"
import { egfrOn } from "./kidney"
import type { Life } from "./life"

/** How and when a person's time at the clinic ends, if it does. */
export type Fate = {
  /** The last day anything can happen: the end, or the last day told of. */
  lastDay: Day
  left: Day | null
  reason: "" | "moved" | "transferred" | "discharged" | "declined" | "died"
  died: Day | null
}

const leavings = [
  { reason: "moved", weight: 38 },
  { reason: "transferred", weight: 30 },
  { reason: "discharged", weight: 24 },
  { reason: "declined", weight: 8 },
] as const

/** Deaths about 5 per 100 person-years, more in the old and with low function; other leavings about 8. */
export function drawFate(life: Life): Fate {
  const { person, period, random, kidney } = life
  const from = Math.max(period.start, person.registered)
  const age = (from - person.birth) / 365.25
  const isLow =
    egfrOn(kidney, from, { isOnRas: false, isOnMra: false, isOnDiuretic: false, isOnSglt2: false }) < 25
  const deathsPerYear = 0.034 * Math.exp(0.055 * (age - 66)) * (isLow ? 1.7 : 1)
  const died = Math.round(from + 5 + random.wait(365.25 / deathsPerYear))
  const left = Math.round(from + 20 + random.wait(365.25 / 0.082))
  if (died > period.through && left > period.through)
    return { lastDay: period.through, left: null, reason: "", died: null }
  if (died <= left) {
    if (age > 70 && random.chance(0.25)) {
      life.palliativeFrom = Math.max(from, died - random.whole(20, 300))
      life.notes.palliativeFrom = life.palliativeFrom
    }
    const hasLeft = random.chance(0.55)
    return { lastDay: died, left: hasLeft ? died : null, reason: hasLeft ? "died" : "", died }
  }
  return { lastDay: left, left, reason: random.weigh(leavings).reason, died: null }
}

/** Some simply stop coming, and nobody closes their record. */
export function drawLostDay(life: Life): Day {
  const from = Math.max(life.period.start, life.person.registered)
  return from + 40 + Math.round(life.random.wait(365.25 / 0.022))
}
