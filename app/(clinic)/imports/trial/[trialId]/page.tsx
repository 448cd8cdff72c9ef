import type { Metadata } from "next"
import { notFound } from "next/navigation"
import { requireScreenUser } from "../../../../_http/require-user"
import { Screen } from "../../../../_ui/screen"
import { findTrial } from "../../../../../lib/jobs/import-trial"
import { Poll } from "../../../../_ui/poll"
import { TrialAside, TrialOutcomeView } from "../../trial-outcome"

export const metadata: Metadata = { title: "Trial of an import" }

export default async function TrialPage(props: PageProps<"/imports/trial/[trialId]">) {
  await requireScreenUser("imports.manage")
  const trial = findTrial((await props.params).trialId)
  if (!trial) notFound()
  return (
    <Screen aside={<TrialAside trial={trial} />}>
      <Poll isOn={trial.status === "running"} />
      <TrialOutcomeView trial={trial} />
    </Screen>
  )
}
