import type { Metadata } from "next"
import { requireScreenUser } from "../../../_http/require-user"
import { Screen, Theme } from "../../../_ui/screen"
import { EmptyClinic } from "../../empty-clinic"
import { peopledSnapshot } from "../../snapshot"
import { effectAnswers } from "./effect-answers"
import { EffectAside } from "./effect-aside"
import { EffectRead } from "./effect-read"
import { EffectReason } from "./effect-reason"

export const metadata: Metadata = { title: "Did it work?" }

export default async function EffectPage({ searchParams }: PageProps<"/outreach/effect">) {
  await requireScreenUser("outreach.work")
  if (!(await peopledSnapshot())) return <EmptyClinic />
  const answers = await effectAnswers(await searchParams)
  const { all, each, settings } = answers
  if (all === null)
    return (
      <Screen aside={<EffectAside answers={answers} />}>
        <p>No reason to contact somebody began in this period. A longer one may have some.</p>
      </Screen>
    )
  return (
    <Screen aside={<EffectAside answers={answers} />}>
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
