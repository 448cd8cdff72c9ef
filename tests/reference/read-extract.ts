import { cellsOf, RowRejected } from "./cells"
import { readCsv, type OpenFile } from "./csv"
import { ageInYears, type Day } from "./day"
import type { Facts } from "./facts"
import { labRows, readingRows } from "./measured-rows"
import {
  allergyRows,
  dietRows,
  orderRows,
  patientRows,
  problemRows,
  staffRows,
  visitRows,
} from "./record-rows"
import type { RowParser } from "./row-parser"

export type Extract = { open: OpenFile; timeZone: string; importDay: Day }

/**
 * The facts of one extract imported into an empty clinic: bad rows left out, the last line of a key kept,
 * retracted facts and facts of unknown patients gone. `rejected` counts the bad rows of each file.
 */
export function readExtract(extract: Extract): { facts: Facts; rejected: Record<string, number> } {
  const rejected: Record<string, number> = {}
  function read<Fact extends object>(parser: RowParser<Fact>, births: Map<string, Day>): Fact[] {
    const kept = readFile(parser, births, extract)
    rejected[parser.file] = kept.rejected
    return kept.facts
  }

  const patients = read(patientRows, new Map())
  const births = new Map(patients.map((patient) => [patient.patientId, patient.birth]))
  function ofKnownPatients<Fact extends { patientId: string }>(parser: RowParser<Fact>): Fact[] {
    return read(parser, births).filter((fact) => births.has(fact.patientId))
  }
  const facts = {
    staff: read(staffRows, new Map()),
    patients,
    visits: ofKnownPatients(visitRows),
    readings: ofKnownPatients(readingRows),
    labs: ofKnownPatients(labRows),
    orders: ofKnownPatients(orderRows),
    problems: ofKnownPatients(problemRows),
    allergies: ofKnownPatients(allergyRows),
    diet: ofKnownPatients(dietRows),
  }
  return { facts, rejected }
}

function readFile<Fact extends object>(
  parser: RowParser<Fact>,
  births: Map<string, Day>,
  { open, timeZone, importDay }: Extract,
): { facts: Fact[]; rejected: number } {
  const factsByKey = new Map<string, Fact[]>()
  const retractedKeys: string[] = []
  let rejected = 0

  for (const row of readCsv(open(parser.file), parser.columns)) {
    try {
      if (row === null) throw new RowRejected("wrong number of fields")
      const cells = cellsOf(row, timeZone, importDay)
      if (cells.yesOrNo("retracted")) {
        retractedKeys.push(parser.key(cells).key)
        continue
      }
      const { fact, events } = parser.fact(cells)
      rejectImpossibleBirth(birthOf(fact), importDay)
      rejectBeforeBirth(events, birthOf(fact, births))
      const { key, isNumbered } = parser.key(cells)
      const earlier = factsByKey.get(key) ?? []
      if (isNumbered) factsByKey.set(key, [...earlier, fact])
      else if (!wouldDisplaceFinal(fact, earlier[0])) factsByKey.set(key, [fact])
    } catch (problem) {
      if (!(problem instanceof RowRejected)) throw problem
      rejected += 1
    }
  }
  for (const key of retractedKeys) factsByKey.set(key, (factsByKey.get(key) ?? []).slice(1))
  return { facts: [...factsByKey.values()].flat(), rejected }
}

/** A preliminary line never takes the place of a final or corrected one. */
function wouldDisplaceFinal(fact: object, earlier: object | undefined): boolean {
  if (!earlier || !("isPreliminary" in fact) || !("isPreliminary" in earlier)) return false
  return fact.isPreliminary === true && earlier.isPreliminary === false
}

/** The birth date a record states; for a fact that of its patient, where it is known. */
function birthOf(fact: object, births = new Map<string, Day>()): Day | undefined {
  if ("birth" in fact && typeof fact.birth === "number") return fact.birth
  return "patientId" in fact && typeof fact.patientId === "string" ? births.get(fact.patientId) : undefined
}

function rejectImpossibleBirth(birth: Day | undefined, importDay: Day): void {
  if (birth === undefined) return
  const isOver120 = ageInYears(birth, importDay - 1) >= 120
  if (birth > importDay || isOver120) throw new RowRejected("birth_date is impossible")
}

function rejectBeforeBirth(events: (Day | null)[], birth: Day | undefined): void {
  if (birth === undefined) return
  if (events.some((event) => event !== null && event < birth)) throw new RowRejected("before the birth")
}
