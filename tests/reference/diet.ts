import { isInLastDays, isInLastMonths, monthNumber, type Day } from "./day"
import { exact, mean, times, type Exact } from "./exact"
import type { Person } from "./people"

export type SodiumRecord = { day: Day; series: Series; sodiumMg: Exact; potassiumMg: Exact | null }

/** In the order that decides between series whose latest record is of one day. */
const seriesInOrder = ["24-hour urine", "counted days", "food frequency"] as const
type Series = (typeof seriesInOrder)[number]

/** Every diet record of the person: the rows of the diet file, and 24-hour urine sodium at 22.99 mg per mmol. */
export function sodiumRecords(person: Person): SodiumRecord[] {
  const told = person.diet.map(({ day, method, sodiumMg, potassiumMg }): SodiumRecord => {
    return {
      day,
      series: method === "food_frequency" ? "food frequency" : "counted days",
      sodiumMg,
      potassiumMg,
    }
  })
  const excreted = person.labs
    .filter((lab) => lab.test === "urine_sodium_24h" && !lab.isPreliminary)
    .map((lab): SodiumRecord => {
      return {
        day: lab.day,
        series: "24-hour urine",
        sodiumMg: times(lab.value, exact("22.99")),
        potassiumMg: null,
      }
    })
  return [...told, ...excreted]
}

/** Mean daily sodium and potassium over the last 90 days, within the series that has the latest record. */
export function dietAt(
  records: SodiumRecord[],
  on: Day,
): { sodiumMg: Exact | null; potassiumMg: Exact | null } {
  const ofSeries = ofLatestSeries(records.filter((record) => isInLastDays(record.day, on, 90)))
  return {
    sodiumMg: meanOrNull(ofSeries.map((record) => record.sodiumMg)),
    potassiumMg: meanOrNull(ofSeries.flatMap((record) => record.potassiumMg ?? [])),
  }
}

/** Mean daily sodium as on a day, where there is none as over the last 12 months; null without any record. */
export function sodiumWithinYear(records: SodiumRecord[], on: Day): Exact | null {
  const ofSeries = ofLatestSeries(records.filter((record) => isInLastMonths(record.day, on, 12)))
  return dietAt(records, on).sodiumMg ?? meanOrNull(ofSeries.map((record) => record.sodiumMg))
}

/** The day of the latest record of the last 12 months, whichever series it is of: the series with it speaks. */
export function latestRecordDay(records: SodiumRecord[], on: Day): Day | null {
  const days = records.map(({ day }) => day).filter((day) => isInLastMonths(day, on, 12))
  return days.length === 0 ? null : Math.max(...days)
}

/** The records of the series whose latest record is the latest of all. */
function ofLatestSeries(records: SodiumRecord[]): SodiumRecord[] {
  const latestDay = Math.max(...records.map((record) => record.day))
  const series = seriesInOrder.find((each) =>
    records.some((record) => record.series === each && record.day === latestDay),
  )
  return records.filter((record) => record.series === series)
}

/** The mean of the counted days of the month of a day, up to and including it. */
export function sodiumInMonth(records: SodiumRecord[], on: Day): Exact | null {
  const inMonth = countedDays(records).filter(
    (record) => monthNumber(record.day) === monthNumber(on) && record.day <= on,
  )
  return meanOrNull(inMonth.map((record) => record.sodiumMg))
}

/** The mean of the counted days of the calendar months from 15 to 3 months before the month of a day. */
export function sodiumBeforeMonth(records: SodiumRecord[], on: Day): Exact | null {
  const earlier = countedDays(records).filter((record) => {
    const monthsBefore = monthNumber(on) - monthNumber(record.day)
    return monthsBefore >= 3 && monthsBefore <= 15
  })
  return meanOrNull(earlier.map((record) => record.sodiumMg))
}

function countedDays(records: SodiumRecord[]): SodiumRecord[] {
  return records.filter((record) => record.series === "counted days")
}

function meanOrNull(values: Exact[]): Exact | null {
  return values.length === 0 ? null : mean(values)
}
