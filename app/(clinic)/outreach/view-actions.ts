"use server"

import { refresh } from "next/cache"
import { headers } from "next/headers"
import { z } from "zod"
import { RowNumber } from "../../../lib/domain/row-number"
import { TypedText } from "../../../lib/domain/typed-text"
import { store } from "../../../lib/store/client"
import { namesSomebody } from "../../../lib/store/names-somebody"
import { mostViews, removeView, saveView } from "../../../lib/store/outreach-views"
import { formField } from "../../_http/form-field"
import { requireScreenUser } from "../../_http/require-user"
import { assertSameOrigin } from "../../_http/same-origin"
import { searchOf, viewOf } from "./search-params"

const longestName = 60
const ViewName = TypedText.trim().min(1).max(longestName)
const Search = z.string().max(2000)

/** `saved` counts what was saved, so that the form is empty again after each. */
export type ViewAnswer = { problem: string | null; saved: number }

/** Keeps the list as it is narrowed now, under a name, for whoever asks. */
export async function keepView(before: ViewAnswer, form: FormData): Promise<ViewAnswer> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("outreach.work")
  const search = searchOf(viewOf(formField(Search, form.get("search"))))
  const name = ViewName.safeParse(form.get("name"))
  if (!name.success) return { ...before, problem: `A name of up to ${longestName} characters is needed.` }
  if (await namesSomebody(store(), name.data))
    return { ...before, problem: "It names a patient; a view is named for what it shows." }
  const view = { userId: caller.userId, name: name.data, search, now: new Date() }
  const answer = await saveView(store(), view)
  if (answer === "taken") return { ...before, problem: "A view of that name is there already." }
  if (answer === "too many")
    return { ...before, problem: `There are ${mostViews} views; one has to go first.` }
  refresh()
  return { problem: null, saved: before.saved + 1 }
}

/** Takes one of the own views away. */
export async function dropView(form: FormData): Promise<void> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("outreach.work")
  await removeView(store(), { id: formField(RowNumber, form.get("id")), userId: caller.userId })
  refresh()
}
