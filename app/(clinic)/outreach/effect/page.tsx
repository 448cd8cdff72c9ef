import type { Metadata } from "next"
import { recordedOnce } from "../../../_http/recorded"
import { requireScreenUser } from "../../../_http/require-user"
import { Screen, Theme } from "../../../_ui/screen"
import { EmptyClinic } from "../../empty-clinic"
import { peopledSnapshot } from "../../snapshot"
import { effectAnswers } from "./effect-answers"
import { EffectAside } from "./effect-aside"
import { EffectRead } from "./effect-read"
import { EffectReason } from "./effect-reason"
import { urgentAnswers } from "./urgent-answers"
import { UrgentSeenPart } from "./urgent-seen"

export const metadata: Metadata = { title: "Did it work?" }

export default async function EffectPage({ searchParams }: PageProps<"/outreach/effect">) {
  const caller = await requireScreenUser("outreach.work")
  const snapshot = await peopledSnapshot()
  if (!snapshot) return <EmptyClinic />
  const answers = await effectAnswers(await searchParams)
  const { all, each, settings } = answers
  const urgent = await urgentAnswers(snapshot, answers.view)
  const people = [...new Set(urgent.people.map((one) => one.publicId))]
  await recordedOnce(caller, { action: "cases.list", object: "urgent not acknowledged", people })
  if (all === null)
    return (
      <Screen aside={<EffectAside answers={answers} />}>
        <p>No reason to contact somebody began in this period. A longer one may have some.</p>
        <UrgentSeenPart urgent={urgent} settings={settings} />
      </Screen>
    )
  return (
    <Screen aside={<EffectAside answers={answers} />}>
      <UrgentSeenPart urgent={urgent} settings={settings} />
      <EffectRead answers={answers} />
      <Theme title="All reasons together" id="all">
        <EffectReason figures={all} settings={settings} fewest={answers.fewest} />
      </Theme>
      <Theme title="By reason" id="reasons">
        {each.map((figures) => (
          <EffectReason key={figures.reason} figures={figures} settings={settings} fewest={answers.fewest} />
        ))}
      </Theme>
    </Screen>
  )
}
