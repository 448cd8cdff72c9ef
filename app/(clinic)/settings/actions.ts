"use server"

import { headers } from "next/headers"
import { redirect } from "next/navigation"
import { isSettingKey } from "../../../lib/domain/setting-proposal"
import { settingName } from "../../../lib/domain/setting-values"
import { TypedText } from "../../../lib/domain/typed-text"
import { startRefresh } from "../../../lib/jobs/refresh-process"
import { actorOf } from "../../../lib/store/audit-actors"
import { saveSettings } from "../../../lib/store/settings"
import { requireScreenUser } from "../../_http/require-user"
import { assertSameOrigin } from "../../_http/same-origin"
import { site } from "../../_http/site"
import { settingsHref, type SettingTexts } from "./search-params"

const Reason = TypedText.trim().min(1).max(500)

export type SaveAnswer = { problem: string | null }

/** Saves what is proposed with its reason; the figures follow. */
export async function saveProposal(_before: SaveAnswer, form: FormData): Promise<SaveAnswer> {
  assertSameOrigin(await headers())
  const caller = await requireScreenUser("settings.change")
  const reason = Reason.safeParse(form.get("reason"))
  if (!reason.success) return { problem: "A reason is needed; it stands beside the change later on." }
  const here = site()
  const saved = await saveSettings(here.client, {
    texts: textsOf(form),
    by: actorOf(caller),
    reason: reason.data,
    now: new Date(),
  })
  if (saved.status === "refused")
    return {
      problem: saved.problems.map(({ key, message }) => `${settingName(key)}: ${message}`).join(" "),
    }
  if (saved.status === "saved") startRefresh(here)
  redirect(settingsHref({}, "changes"))
}

function textsOf(form: FormData): SettingTexts {
  const texts: SettingTexts = {}
  for (const [name, value] of form) if (isSettingKey(name) && typeof value === "string") texts[name] = value
  return texts
}
