import { readFileSync } from "node:fs"
import { z } from "zod"
import { defaultSettings } from "../../lib/domain/settings"
import { clinicalViews } from "../../lib/engine/views"
import { allergySubstances } from "../fixtures/allergy-substances"
import { drugMappings, drugOrderCases } from "../fixtures/drug-orders"
import { drugOrderMisses, drugOrderRows } from "../helpers/drug-order-rows"
import { openDrugs } from "../helpers/open-drugs"
import { signatureOf, type Pipeline } from "./pipeline"

const Texts = z.object({ texts: z.array(z.object({ text: z.string(), status: z.string().optional() })) })

/** The views that read drug texts, over texts, codes, routes and substances whose meaning is listed with its source. */
export async function openDrugTexts(): Promise<{ pipeline: Pipeline; isStillRight: () => Promise<boolean> }> {
  const texts = [...textsOf("drug-texts"), ...textsOf("drug-suggestions")]
  const orders = [...drugOrderCases.map(({ order }) => order), ...texts.map(({ text }) => ({ drug: text }))]
  const substances = allergySubstances.map(([substance]) => substance)
  const connection = await openDrugs({ orders, substances, mappings: drugMappings })
  const has = await tablesOf(connection)
  const steps = clinicalViews().filter((view) => has.includes(view.name))
  const signatures = new Map<string, string>()
  for (const step of steps) signatures.set(step.name, await signatureOf(connection, step.name))
  const told = texts.flatMap(({ text, status }) =>
    status === undefined ? [] : [`'${text.replaceAll("'", "''")}'`],
  )
  const asked = () =>
    Promise.all([
      signatureOf(connection, "drug_texts", "text, ingredients, unknown_words"),
      signatureOf(connection, "drug_suggestions"),
      signatureOf(connection, `(from drug_texts where text in (${told.join(", ")}))`, "text, status"),
    ])
  const right = JSON.stringify(await asked())
  const areRight = async () => {
    const [rows, kinds] = [await drugOrderRows(connection), await kindsOf(connection)]
    return (
      drugOrderCases.every((one, at) => Object.keys(drugOrderMisses(one, rows.get(at))).length === 0) &&
      allergySubstances.every(([substance, kind]) => (kinds.get(substance) ?? null) === kind)
    )
  }
  if (!(await areRight())) throw new Error("the orders of the drug tests are not read as they should be")
  return {
    pipeline: { connection, steps, signatures, settings: defaultSettings },
    isStillRight: async () => JSON.stringify(await asked()) === right && (await areRight()),
  }
}

async function kindsOf(connection: Pipeline["connection"]): Promise<Map<string, string>> {
  const reader = await connection.runAndReadAll(
    "select substance, string_agg(kind, ' ' order by kind) from allergy_kinds group by substance",
  )
  return new Map(reader.getRowsJson().map(([substance, kinds]) => [String(substance), String(kinds)]))
}

function textsOf(name: string) {
  const file = new URL(`../fixtures/vectors/${name}.json`, import.meta.url)
  return Texts.parse(JSON.parse(readFileSync(file, "utf8"))).texts
}

async function tablesOf(connection: Pipeline["connection"]): Promise<string[]> {
  const reader = await connection.runAndReadAll("select table_name from information_schema.tables")
  return reader.getRowsJson().map(([name]) => String(name))
}
