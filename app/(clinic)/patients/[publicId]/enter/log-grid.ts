import { daysAfter } from "../../../../../lib/domain/day-sums"

/** How many days a log has at once, and how often and how many times each is measured on one. */
export const logDays = 7
export const sittings = ["morning", "evening"] as const
export const readingsEach = 2

/** When a sitting is unless somebody says otherwise. */
export const usualTimes = { morning: "07:00", evening: "19:00" } as const

export const pressureColumns = ["systolic", "diastolic", "pulse"] as const

/** One morning or evening of the log; `place` counts them from the first. */
export type Sitting = { place: number; day: string; half: (typeof sittings)[number] }

/** The mornings and evenings of the week that ends on a day, the first one first. */
export function sittingsUntil(last: string): Sitting[] {
  return Array.from({ length: logDays }, (_, index) => daysAfter(last, index + 1 - logDays)).flatMap(
    (day, index) => sittings.map((half, second) => ({ place: index * sittings.length + second, day, half })),
  )
}

/** The names of a sitting's fields in the form. */
export function timeField(place: number): string {
  return `time.${place}`
}

export function pressureField(place: number, reading: number, column: string): string {
  return `${column}.${place}.${reading}`
}
