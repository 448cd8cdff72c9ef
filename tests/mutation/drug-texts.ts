import { readFileSync } from "node:fs"
import { z } from "zod"
import { defaultSettings } from "../../lib/domain/settings"
import { clinicalViews } from "../../lib/engine/views"
import { openDrugs } from "../helpers/open-drugs"
import { signatureOf, type Pipeline } from "./pipeline"

const Texts = z.object({ texts: z.array(z.object({ text: z.string(), status: z.string().optional() })) })

/** The views that read drug texts, over the texts whose meaning is listed with its source. */
export async function openDrugTexts(): Promise<{ pipeline: Pipeline; isStillRight: () => Promise<boolean> }> {
  const texts = [...textsOf("drug-texts"), ...textsOf("drug-suggestions")]
  const connection = await openDrugs({ orders: texts.map(({ text }) => ({ drug: text })) })
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
  return {
    pipeline: { connection, steps, signatures, settings: defaultSettings },
    isStillRight: async () => JSON.stringify(await asked()) === right,
  }
}

function textsOf(name: string) {
  const file = new URL(`../fixtures/vectors/${name}.json`, import.meta.url)
  return Texts.parse(JSON.parse(readFileSync(file, "utf8"))).texts
}

async function tablesOf(connection: Pipeline["connection"]): Promise<string[]> {
  const reader = await connection.runAndReadAll("select table_name from information_schema.tables")
  return reader.getRowsJson().map(([name]) => String(name))
}
