import type { Metadata } from "next"
import { recordedOnce } from "../../_http/recorded"
import { requireScreenUser } from "../../_http/require-user"
import { Screen, Theme } from "../../_ui/screen"
import { dietShares } from "../../../lib/figures/diet-shares"
import { EmptyClinic } from "../empty-clinic"
import { chooseMonth, underSettingsThen } from "../months"
import { peopledSnapshot } from "../snapshot"
import { DietSeriesCharts } from "../diet-series-charts"
import { parseSodiumView } from "./search-params"
import { SodiumAnswer } from "./sodium-answer"
import { sodiumAnswers } from "./sodium-answers"
import { SodiumAside } from "./sodium-aside"
import { SodiumCaution, SodiumSources } from "./sodium-caution"
import { SodiumEffect } from "./sodium-effect"
import { SodiumGroups } from "./sodium-groups"
import { SodiumLimits } from "./sodium-limits"
import { SodiumList } from "./sodium-list"
import { SodiumRatio } from "./sodium-ratio"
import { SodiumUrines } from "./sodium-urines"

export const metadata: Metadata = { title: "Sodium" }

export default async function SodiumPage(props: PageProps<"/sodium">) {
  const caller = await requireScreenUser("people.see")
  const view = parseSodiumView(await props.searchParams)
  const current = await peopledSnapshot()
  if (!current) return <EmptyClinic />
  const chosen = chooseMonth(current, view.month)
  const snapshot = underSettingsThen(current, chosen)
  const answers = await sodiumAnswers({ view, chosen, snapshot })
  const people = answers.people.map((person) => person.public_id)
  await recordedOnce(caller, { action: "patients.list", object: "sodium", people })
  const limitMg = snapshot.settings["diet.limitMg"]
  return (
    <Screen aside={<SodiumAside {...{ answers, view, chosen, snapshot }} />}>
      <SodiumAnswer figure={answers.figure} />
      <SodiumCaution />
      <Theme id="ways" title="The other ways of asking" note={dietShares(answers.figure)}>
        <DietSeriesCharts figure={answers.figure} />
      </Theme>
      <SodiumLimits limits={answers.limits} bars={answers.bars} chosen={chosen} />
      <SodiumRatio ratios={answers.ratios} isClosed={chosen.isClosed} />
      <SodiumUrines urines={answers.urines} chosen={chosen} />
      <SodiumEffect effects={answers.effects} limitMg={limitMg} />
      <SodiumGroups groups={answers.groups} limitMg={limitMg} />
      <SodiumList {...{ answers, view, chosen }} />
      <SodiumSources />
    </Screen>
  )
}
