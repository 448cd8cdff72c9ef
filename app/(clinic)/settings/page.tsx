import type { Metadata } from "next"
import { redirect } from "next/navigation"
import { requireScreenUser } from "../../_http/require-user"
import { proposeSettings } from "../../../lib/domain/setting-proposal"
import { site } from "../../_http/site"
import { Poll } from "../../_ui/poll"
import { Screen } from "../../_ui/screen"
import { Changes } from "./changes"
import { ProposalView } from "./proposal-view"
import { parseSettingsView, proposedTexts, settingsHref } from "./search-params"
import { settingsAnswers } from "./settings-answers"
import { SettingsAside } from "./settings-aside"
import { SettingsGroups } from "./settings-groups"

export const metadata: Metadata = { title: "Settings" }

export default async function SettingsPage({ searchParams }: PageProps<"/settings">) {
  const caller = await requireScreenUser("settings.see")
  const view = parseSettingsView(await searchParams)
  const answers = await settingsAnswers(site().client)
  const proposal = proposeSettings(answers.settings, view.texts)
  const texts = proposedTexts(proposal.settings, proposal.changed)
  if (proposal.problems.length === 0 && !(view.isShort && isSame(texts, view.texts)))
    redirect(settingsHref(texts))
  return (
    <Screen aside={<SettingsAside answers={answers} />}>
      <Poll isOn={answers.isRefreshing && proposal.changed.length === 0} />
      <ProposalView caller={caller} answers={answers} proposal={proposal} />
      <SettingsGroups settings={answers.settings} proposal={proposal} texts={view.texts} />
      <Changes
        changes={answers.changes}
        settings={answers.settings}
        timeZone={answers.snapshot?.timeZone ?? "UTC"}
      />
    </Screen>
  )
}

function isSame(one: object, other: object): boolean {
  return JSON.stringify(Object.entries(one).sort()) === JSON.stringify(Object.entries(other).sort())
}
