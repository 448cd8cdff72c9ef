import type { DuckDBConnection } from "@duckdb/node-api"
import { cautions } from "../../lib/measures/cautions"
import { ageDay, agedByHand, ageFacts } from "../fixtures/age-people"
import { cautionFacts } from "../fixtures/caution-facts"
import { cautionPeople } from "../fixtures/caution-people"
import { today } from "../fixtures/caution-person"
import { decidedByHand, decisionDay, decisionFacts } from "../fixtures/decision-people"
import { resistanceFacts } from "../fixtures/resistance-facts"
import { resistancePeople } from "../fixtures/resistance-people"
import { spreadByHand, spreadDay, spreadFacts } from "../fixtures/sodium-spread"
import { valueFacts, valuesByHand } from "../fixtures/value-facts"
import { valueDay } from "../fixtures/value-person"
import { fillRawTables, type RawFacts } from "../helpers/open-engine"
import { openPipeline, type Pipeline } from "./pipeline"

type ByHand = { condition: string; ids: readonly string[] }

/** Small clinics whose people are known to meet these conditions and no others. */
const clinics: { name: string; day: string; facts: RawFacts; byHand: readonly ByHand[] }[] = [
  { name: "people with decisions", day: decisionDay, facts: decisionFacts, byHand: decidedByHand },
  { name: "people of every age", day: ageDay, facts: ageFacts, byHand: agedByHand },
  { name: "people with values", day: valueDay, facts: valueFacts, byHand: valuesByHand },
  { name: "people asked about sodium", day: spreadDay, facts: spreadFacts, byHand: spreadByHand },
  { name: "people on several classes", day: today, facts: resistanceFacts, byHand: regimensByHand() },
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
    const areRight = async () => {
      const found = await idsWhere(
        pipeline.connection,
        byHand.map(({ condition }) => condition),
      )
      return byHand.every(({ ids }, place) => isSameSet(found[place], ids))
    }
    if (!(await areRight())) throw new Error(`${name} are not as they were worked out by hand`)
    opened.push({
      name,
      pipeline,
      isStillRight: areRight,
      isSameAs: async (condition, changed) => {
        const known = byHand.find((one) => one.condition === condition)
        if (known === undefined) return true
        return isSameSet((await idsWhere(pipeline.connection, [changed]))[0], known.ids)
      },
    })
  }
  return opened
}

/** One condition for each figure of the regimen of each person. */
function regimensByHand(): ByHand[] {
  return resistancePeople.map(({ name, byHand }) => ({
    condition: `p.patient_id = '${name}'
      and p.classes_at_half is not distinct from ${byHand.half}
      and p.classes_at_maximum is not distinct from ${byHand.maximum}
      and p.classes_below_half is not distinct from ${byHand.below}
      and p.classes_dose_unknown is not distinct from ${byHand.unknown}
      and p.supply_gap_days is not distinct from ${byHand.gapDays}`,
    ids: [name],
  }))
}

/** For each condition the people it holds for, in order. */
async function idsWhere(connection: DuckDBConnection, conditions: readonly string[]): Promise<string[][]> {
  const columns = conditions.map((condition, place) => `(${condition}) as holds_${place}`)
  const lists = conditions.map(
    (_, place) => `coalesce(list(patient_id order by patient_id) filter (where holds_${place}), [])`,
  )
  const reader = await connection.runAndReadAll(
    `select ${lists.join(", ")} from (
      select p.patient_id, ${columns.join(", ")} from patient_month as p
      left join patient_standings as s on s.patient_id = p.patient_id and s.as_of = p.as_of
    )`,
  )
  return (reader.getRowsJson()[0] ?? []).map((list) => (Array.isArray(list) ? list.map(String) : []))
}

function isSameSet(found: readonly string[] | undefined, ids: readonly string[]): boolean {
  return JSON.stringify(found) === JSON.stringify(ids.toSorted())
}
