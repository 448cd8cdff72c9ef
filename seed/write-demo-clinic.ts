import { badLines } from "./bad-lines"
import { dayOf } from "./calendar"
import { periodOf, staffRows } from "./clinic"
import { openExtractWriter, type ExtractWriter } from "./extract-writer"
import { patientId } from "./person"
import { openRandom } from "./random"
import { splitOffDuplicate, testPatientRows, writeRows } from "./soil"
import { openTally, type Tally } from "./tally"
import { tellLife } from "./tell-life"
import type { FactKind } from "../lib/domain/fact-kinds"

export type ClinicOptions = {
  /** People, from 1; the records a few of them have twice and the trainers' test patient come on top. */
  patients?: number
  seed?: number
  /** Months the story covers; people who were there before bring what the records held of the two years before. */
  months?: number
  /** Last day of the story, YYYY-MM-DD. */
  through: string
  onProgress?: (done: number, patients: number) => void
}

export type DemoClinic = {
  rowsByFile: Record<FactKind, number>
  /** Rows that the contract rejects or holds, on purpose. */
  badRows: number
  tally: Tally
}

export const demoClinicDefaults = { patients: 2400, seed: 10, months: 40 } as const

/**
 * Writes the demo clinic's extract into a folder (made if it is not there): ten files, one life at a time, so that
 * memory does not grow with the clinic. The same options give the same bytes.
 * Throws RangeError for a number of people or months, or a day, that makes no sense.
 */
export function writeDemoClinic({ folder, ...options }: ClinicOptions & { folder: string }): DemoClinic {
  settle(options)
  return tellClinic(options, openExtractWriter(folder))
}

/** Tells every life of the clinic to a writer; see `writeDemoClinic`. */
export function tellClinic(options: ClinicOptions, writer: ExtractWriter): DemoClinic {
  const { patients, seed, period } = settle(options)
  const tally = openTally(period)
  const bad = badLines({ patients, through: period.through })
  staffRows().forEach((row) => writer.write("staff", row))

  for (let number = 1; number <= patients; number++) {
    const told = tellLife({ seed, number, period })
    tally.count(told)
    const random = openRandom(seed, "soil", number)
    const isTwice = random.chance(0.004)
    const { rows } = told.life
    const written = isTwice
      ? splitOffDuplicate({ rows, duplicateId: patientId(number + 700_000), random })
      : rows
    writeRows({ rows: written, writer, random })
    for (const line of bad) if (line.afterPatient === number) writer.writeLine(line.file, line.text)
    if (number % 500 === 0) options.onProgress?.(number, patients)
  }
  if (patients >= 50)
    writeRows({ rows: testPatientRows(options.through), writer, random: openRandom(seed, "test") })

  return { rowsByFile: writer.close(), badRows: bad.length, tally: tally.close() }
}

function settle(options: ClinicOptions) {
  const patients = options.patients ?? demoClinicDefaults.patients
  const months = options.months ?? demoClinicDefaults.months
  const seed = options.seed ?? demoClinicDefaults.seed
  if (!isWholeWithin(patients, 1, 600_000))
    throw new RangeError("writeDemoClinic requires 1 to 600000 patients")
  if (!isWholeWithin(months, 1, 240)) throw new RangeError("writeDemoClinic requires 1 to 240 months")
  if (!Number.isSafeInteger(seed)) throw new RangeError("writeDemoClinic requires a whole number as seed")
  return { patients, months, seed, period: periodOf({ through: dayOf(options.through), months }) }
}

function isWholeWithin(value: number, low: number, high: number): boolean {
  return Number.isInteger(value) && value >= low && value <= high
}
