"use server"

import { headers } from "next/headers"
import { redirect } from "next/navigation"
import { z } from "zod"
import { reasonIds, type ReasonId } from "../../../../lib/domain/reason-ids"
import { settingName } from "../../../../lib/domain/setting-values"
import { TypedText } from "../../../../lib/domain/typed-text"
import { startRefresh } from "../../../../lib/jobs/refresh-process"
import { actorOf } from "../../../../lib/store/audit-actors"
import { saveSettings } from "../../../../lib/store/settings"
import { requireScreenUser } from "../../../_http/require-user"
import { assertSameOrigin } from "../../../_http/same-origin"
import { site } from "../../../_http/site"
import { reasonTexts } from "./reason-rows"

const Reason = TypedText.trim().min(1).max(500)
const Place = z
  .string()
  .trim()
  .regex(/^\d{1,2}$/)
  .transform(Number)

export type OutreachAnswer = { problem: string | null }

/** Saves which reasons the list uses, in which order, and what its urgent rows say; the list follows. */
export async function saveOutreach(_before: OutreachAnswer, form: FormData): Promise<OutreachAnswer> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("settings.change")
  const reason = Reason.safeParse(form.get("reason"))
  if (!reason.success) return { problem: "A reason is needed; it stands beside the change later on." }
  const places = reasonIds.flatMap((id): [ReasonId, number][] => {
    const place = Place.safeParse(form.get(`place.${id}`))
    return place.success ? [[id, place.data]] : []
  })
  if (places.length < reasonIds.length) return { problem: "Each place is a whole number, 1 for the first." }
  const urgentText = form.get("outreach.urgentText")
  const placeBy = new Map(places)
  const here = site()
  const saved = await saveSettings(here.client, {
    texts: {
      ...reasonTexts({
        isOn: (id) => form.get(`on.${id}`) === "yes",
        placeOf: (id) => placeBy.get(id) ?? reasonIds.length,
      }),
      "outreach.urgentText": typeof urgentText === "string" ? urgentText : "",
    },
    by: actorOf(caller),
    reason: reason.data,
    now: new Date(),
  })
  if (saved.status === "refused")
    return { problem: saved.problems.map(({ key, message }) => `${settingName(key)}: ${message}`).join(" ") }
  if (saved.status === "saved") startRefresh(here)
  redirect("/settings/outreach#changes")
}
