import type { DuckDBConnection } from "@duckdb/node-api"
import { cautions } from "../../lib/measures/cautions"
import { ageDay, agedByHand, ageFacts } from "../fixtures/age-people"
import { cautionFacts } from "../fixtures/caution-facts"
import { cautionPeople } from "../fixtures/caution-people"
import { today } from "../fixtures/caution-person"
import { decidedByHand, decisionDay, decisionFacts } from "../fixtures/decision-people"
import { fillRawTables, type RawFacts } from "../helpers/open-engine"
import { openPipeline, type Pipeline } from "./pipeline"

type ByHand = { condition: string; ids: readonly string[] }

/** Small clinics whose people are known to meet these conditions and no others. */
const clinics: { name: string; day: string; facts: RawFacts; byHand: readonly ByHand[] }[] = [
  { name: "people with decisions", day: decisionDay, facts: decisionFacts, byHand: decidedByHand },
  { name: "people of every age", day: ageDay, facts: ageFacts, byHand: agedByHand },
  {
    name: "people with cautions",
    day: today,
    facts: cautionFacts,
    byHand: cautions.map(({ id, sql }) => ({
      condition: sql,
      ids: cautionPeople.filter((person) => person.cautions.includes(id)).map((person) => person.name),
    })),
  },
]

export type OpenedByHand = {
  name: string
  pipeline: Pipeline
  isStillRight: () => Promise<boolean>
  /** Whether a changed condition still holds for the people of the one it replaces. */
  isSameAs: (condition: string, changed: string) => Promise<boolean>
}

/** Asserts that the computation as it is finds those people. */
export async function openByHand(): Promise<OpenedByHand[]> {
  const opened: OpenedByHand[] = []
  for (const { name, day, facts, byHand } of clinics) {
    const load = (connection: DuckDBConnection) => fillRawTables(connection, facts)
    const pipeline = await openPipeline({ days: [day], settings: {}, load })
    const isRight = async ({ condition, ids }: ByHand) =>
      JSON.stringify(await idsWhere(pipeline.connection, condition)) === JSON.stringify(ids.toSorted())
    const areRight = async () => {
      for (const one of byHand) if (!(await isRight(one))) return false
      return true
    }
    if (!(await areRight())) throw new Error(`${name} are not as they were worked out by hand`)
    opened.push({
      name,
      pipeline,
      isStillRight: areRight,
      isSameAs: async (condition, changed) => {
        const known = byHand.find((one) => one.condition === condition)
        return known === undefined || isRight({ condition: changed, ids: known.ids })
      },
    })
  }
  return opened
}

async function idsWhere(connection: DuckDBConnection, condition: string): Promise<string[]> {
  const reader = await connection.runAndReadAll(
    `select p.patient_id from patient_month as p
     join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
     where ${condition}`,
  )
  return reader
    .getRowsJson()
    .map(([id]) => String(id))
    .toSorted()
}
