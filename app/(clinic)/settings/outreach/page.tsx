import type { Metadata } from "next"
import Link from "next/link"
import { may } from "../../../../lib/access/permissions"
import { isSettingKey } from "../../../../lib/domain/setting-proposal"
import { topicOf } from "../../../../lib/domain/setting-choices"
import { requireScreenUser } from "../../../_http/require-user"
import { site } from "../../../_http/site"
import { AsidePart, Screen, ScreenTitle } from "../../../_ui/screen"
import { Changes } from "../changes"
import { settingsAnswers } from "../settings-answers"
import { OutreachForm } from "./outreach-form"
import { reasonRows } from "./reason-rows"

export const metadata: Metadata = { title: "Reasons to contact" }

export default async function OutreachSettingsPage() {
  const caller = await requireScreenUser("settings.see")
  const { settings, changes, snapshot, isRefreshing } = await settingsAnswers(site().client)
  const own = changes.filter((change) => Object.keys(change.after).some(isOfOutreach))
  const aside = (
    <>
      <ScreenTitle title="Reasons to contact" size="small">
        Which of them the list uses, in which order, and what its urgent rows say.
      </ScreenTitle>
      {isRefreshing ? (
        <AsidePart>
          <p role="status">The list is being made anew. Until then the earlier one is shown.</p>
        </AsidePart>
      ) : null}
      <AsidePart>
        <p className="soft">
          Urgent reasons stay on: they name what cannot wait. A case whose last reason is switched off closes
          and says so.
        </p>
      </AsidePart>
      <AsidePart>
        <p>
          <Link href="/settings#outreach" prefetch={false}>
            Attempts, days and letters
          </Link>
        </p>
        <p>
          <Link href="/settings/letters" prefetch={false}>
            What letters say
          </Link>
        </p>
      </AsidePart>
    </>
  )
  return (
    <Screen aside={aside}>
      <OutreachForm
        key={own[0]?.id ?? 0}
        rows={reasonRows(settings)}
        urgentText={settings["outreach.urgentText"]}
        mayChange={may(caller, "settings.change")}
      />
      <Changes changes={own} settings={settings} timeZone={snapshot?.timeZone ?? "UTC"} />
    </Screen>
  )
}

function isOfOutreach(key: string): boolean {
  return isSettingKey(key) && topicOf(key).group === "outreach"
}
