import { isInLastDays, isInLastMonths, type Day } from "./day"
import { compare, exact, mean, roundedHalfUp, type Exact } from "./exact"
import type { Reading } from "./facts"

export type Source = "ambulatory" | "home" | "office"
export type Pressure = { systolic: number; diastolic: number; source: Source; on: Day }

const targets = { office: [130, 80], home: [130, 80], ambulatory: [125, 75] } as const

/** The pressure that stands for the patient on a day, rounded; null when not measured. */
export function representativePressure(readings: Reading[], on: Day): Pressure | null {
  const office = latestOccasion(readings, "office", on)
  const ambulatory = latestOccasion(readings, "ambulatory", on)
  const home = latestHomeAverage(readings, on)
  const outOfOffice = laterOf(ambulatory, home)

  if (outOfOffice && isInLastDays(outOfOffice.on, on, 90)) {
    const isOfficeSevere = office !== null && (office.systolic >= 180 || office.diastolic >= 120)
    return isOfficeSevere && office.on > outOfOffice.on ? office : outOfOffice
  }
  return office ?? outOfOffice
}

export function isAtTarget(pressure: Pressure): boolean {
  const [systolicTarget, diastolicTarget] = targets[pressure.source]
  return pressure.systolic < systolicTarget && pressure.diastolic < diastolicTarget
}

export function categoryOf({ systolic, diastolic }: Pressure): string {
  if (systolic >= 180 || diastolic >= 120) return "severe"
  if (systolic >= 140 || diastolic >= 90) return "stage 2"
  if (systolic >= 130 || diastolic >= 80) return "stage 1"
  return systolic >= 120 ? "elevated" : "normal"
}

/** Readings of the settings that count at all. */
export function countedReadings(readings: Reading[]): Reading[] {
  return readings.filter(({ setting }) => ["office", "home", "ambulatory"].includes(setting))
}

/** The latest day with a counted reading in the last 12 months. */
export function latestCountedDay(readings: Reading[], on: Day): Day | null {
  const days = countedReadings(readings)
    .map(({ day }) => day)
    .filter((day) => isInLastMonths(day, on, 12))
  return days.length === 0 ? null : Math.max(...days)
}

/** The lowest systolic and the lowest diastolic of the latest day with a counted reading, single and unrounded. */
export function lowestOfLatestDay(
  readings: Reading[],
  on: Day,
): { systolic: Exact; diastolic: Exact } | null {
  const counted = countedReadings(readings).filter((reading) => isInLastMonths(reading.day, on, 12))
  const latestDay = Math.max(...counted.map((reading) => reading.day))
  const ofThatDay = counted.filter((reading) => reading.day === latestDay)
  const [systolic] = ofThatDay.map((reading) => reading.systolic).sort(compare)
  const [diastolic] = ofThatDay.map((reading) => reading.diastolic).sort(compare)
  return systolic && diastolic ? { systolic, diastolic } : null
}

export function isUnder140Over90(lowest: { systolic: Exact; diastolic: Exact }): boolean {
  return compare(lowest.systolic, exact("140")) < 0 && compare(lowest.diastolic, exact("90")) < 0
}

/** The mean of the latest day with a reading of that setting in the last 12 months. */
function latestOccasion(readings: Reading[], source: "office" | "ambulatory", on: Day): Pressure | null {
  const inWindow = readings.filter(
    (reading) => reading.setting === source && isInLastMonths(reading.day, on, 12),
  )
  if (inWindow.length === 0) return null
  const latestDay = Math.max(...inWindow.map((reading) => reading.day))
  return meanPressure(
    inWindow.filter((reading) => reading.day === latestDay),
    source,
    latestDay,
  )
}

/** The latest valid home average that ends in the last 12 months; the readings behind it may be older. */
export function latestHomeAverage(readings: Reading[], on: Day): Pressure | null {
  const home = readings.filter((reading) => reading.setting === "home")
  const endDays = [...new Set(home.map((reading) => reading.day))]
    .filter((endDay) => isInLastMonths(endDay, on, 12))
    .sort((a, b) => b - a)
  for (const endDay of endDays) {
    const behind = home.filter((reading) => isInLastDays(reading.day, endDay, 30))
    const days = new Set(behind.map((reading) => reading.day))
    if (behind.length >= 12 && days.size >= 3) return meanPressure(behind, "home", endDay)
  }
  return null
}

/** The later of the two; the ambulatory one when both are of one day. */
function laterOf(ambulatory: Pressure | null, home: Pressure | null): Pressure | null {
  if (!ambulatory || !home) return ambulatory ?? home
  return home.on > ambulatory.on ? home : ambulatory
}

function meanPressure(readings: Reading[], source: Source, on: Day): Pressure {
  return {
    systolic: roundedHalfUp(mean(readings.map((reading) => reading.systolic))),
    diastolic: roundedHalfUp(mean(readings.map((reading) => reading.diastolic))),
    source,
    on,
  }
}
