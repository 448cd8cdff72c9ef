import { ask } from "../../_http/ask"
import { AppError } from "../../../lib/errors"
import { isRefreshing } from "../../../lib/jobs/refresh-process"
import { drugSuggestions } from "../../../lib/questions/drug-suggestions"
import { drugIngredients, unreadDrugTexts } from "../../../lib/questions/drug-texts"
import { listDrugNameMappings } from "../../../lib/store/drug-name-mappings"
import { listImports } from "../../../lib/store/imports"
import { findLatestBuild } from "../../../lib/store/snapshot-builds"
import type { site } from "../../_http/site"
import { waitingRows } from "./waiting-rows"

export const importsPerPage = 20

/** Everything the screen of imports says. What the snapshot knows is missing while there is none. */
export async function importAnswers(
  client: ReturnType<typeof site>["client"],
  page: { before: number | null },
) {
  const [clinic, imports, build, waiting, mappings, drugs] = await Promise.all([
    client.clinic.findUnique({ where: { id: 1 } }),
    listImports(client, { take: importsPerPage + 1, before: page.before ?? undefined }),
    findLatestBuild(client, new Date()),
    waitingRows(client),
    listDrugNameMappings(client),
    drugAnswers(),
  ])
  return {
    timeZone: clinic?.timeZone ?? "UTC",
    imports: imports.slice(0, importsPerPage),
    hasOlder: imports.length > importsPerPage,
    build,
    isRefreshing: isRefreshing(),
    ...waiting,
    mappings,
    drugs,
  }
}

export type ImportAnswers = Awaited<ReturnType<typeof importAnswers>>

async function drugAnswers() {
  try {
    const [texts, suggestions, ingredients] = await Promise.all([
      ask(unreadDrugTexts),
      ask(drugSuggestions),
      ask(drugIngredients),
    ])
    return { texts, suggestions, ingredients: ingredients.map((row) => row.ingredient) }
  } catch (error) {
    if (error instanceof AppError && error.code === "no-snapshot") return null
    throw error
  }
}
