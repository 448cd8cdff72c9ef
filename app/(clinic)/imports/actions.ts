"use server"

import { refresh } from "next/cache"
import { headers } from "next/headers"
import { redirect } from "next/navigation"
import { z } from "zod"
import { factKinds } from "../../../lib/domain/fact-kinds"
import { RowNumber } from "../../../lib/domain/row-number"
import { TypedText } from "../../../lib/domain/typed-text"
import { ask } from "../../_http/ask"
import { formField } from "../../_http/form-field"
import { acceptImport, refuseImport } from "../../../lib/jobs/import-upload"
import { startRefresh } from "../../../lib/jobs/refresh-process"
import { drugIngredients } from "../../../lib/questions/drug-texts"
import { record } from "../../../lib/store/audit"
import { actorOf } from "../../../lib/store/audit-actors"
import { removeDrugNameMapping, saveDrugNameMapping } from "../../../lib/store/drug-name-mappings"
import { discardHeldFact } from "../../../lib/store/held-facts"
import { inCallerScope } from "../../_http/in-caller-scope"
import { recorded } from "../../_http/recorded"
import { requireScreenUser } from "../../_http/require-user"
import { assertSameOrigin } from "../../_http/same-origin"
import { site } from "../../_http/site"
import { forgetWaitingRows } from "./waiting-rows"

const HeldPlace = z.object({ kind: z.enum(factKinds), importId: RowNumber, line: RowNumber })
const DrugName = TypedText.min(1).max(1000)

/** A person has read the question and says to go on. */
export async function accept(form: FormData): Promise<void> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("imports.manage")
  await acceptImport(site(), { id: formField(RowNumber, form.get("id")), by: actorOf(caller) })
  refresh()
}

/** A person has read the question and decided against it. */
export async function decline(form: FormData): Promise<void> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("imports.manage")
  await refuseImport(site(), { id: formField(RowNumber, form.get("id")), by: actorOf(caller) })
  refresh()
}

/** A held row is of no use to anybody. */
export async function discardHeld(form: FormData): Promise<void> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("imports.rows")
  const place = formField(HeldPlace, Object.fromEntries(form))
  const objectId = `${place.importId}/${place.kind}/${place.line}`
  await inCallerScope(async (client) => {
    if (await discardHeldFact(client, place))
      await record(client, { by: actorOf(caller), action: "held-row.discard", object: "row", objectId })
  })
  forgetWaitingRows()
  refresh()
}

/** Computes the figures anew. */
export async function buildAgain(): Promise<void> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("imports.manage")
  await recorded(caller, { action: "figures.ask" })
  startRefresh(site())
  redirect("/imports")
}

export type MappingAnswer = { problem: string | null }

/** Says once what a drug text means; the figures follow. */
export async function mapDrugText(_before: MappingAnswer, form: FormData): Promise<MappingAnswer> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("imports.manage")
  const text = formField(DrugName, form.get("text"))
  const isIgnored = form.get("meaning") === "ignored"
  const named = form
    .getAll("ingredient")
    .map((value) => String(value).trim().toLowerCase())
    .filter((word) => word !== "")
  const known = new Set((await ask(drugIngredients)).map((row) => row.ingredient))
  const unknown = named.find((word) => !known.has(word))
  if (!isIgnored && named.length === 0)
    return { problem: "Name an ingredient, or say that it does not count." }
  if (!isIgnored && unknown !== undefined) return { problem: `${unknown} is on no list of ingredients.` }
  const here = site()
  const ingredients = isIgnored ? [] : [...new Set(named)]
  await saveDrugNameMapping(here.client, { text, ingredients, isIgnored, by: actorOf(caller) })
  startRefresh(here)
  refresh()
  return { problem: null }
}

/** Takes a mapping back. */
export async function unmapDrugText(form: FormData): Promise<void> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("imports.manage")
  const here = site()
  const text = formField(DrugName, form.get("text"))
  await removeDrugNameMapping(here.client, { text, by: actorOf(caller) })
  startRefresh(here)
  refresh()
}
