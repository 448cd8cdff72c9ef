import { readFileSync } from "node:fs"
import { z } from "zod"
import { clinicalViews } from "../../lib/engine/views"
import { openDrugs } from "../helpers/open-drugs"
import { signatureOf, type Pipeline } from "./pipeline"

const Texts = z.object({ texts: z.array(z.object({ text: z.string(), status: z.string().optional() })) })

/** The views that read drug texts, over the texts whose meaning is listed with its source. */
export async function openDrugTexts(): Promise<{ pipeline: Pipeline; isStillRight: () => Promise<boolean> }> {
  const file = new URL("../fixtures/vectors/drug-texts.json", import.meta.url)
  const { texts } = Texts.parse(JSON.parse(readFileSync(file, "utf8")))
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
      signatureOf(connection, `(from drug_texts where text in (${told.join(", ")}))`, "text, status"),
    ])
  const right = JSON.stringify(await asked())
  return {
    pipeline: { connection, steps, signatures },
    isStillRight: async () => JSON.stringify(await asked()) === right,
  }
}

async function tablesOf(connection: Pipeline["connection"]): Promise<string[]> {
  const reader = await connection.runAndReadAll("select table_name from information_schema.tables")
  return reader.getRowsJson().map(([name]) => String(name))
}
