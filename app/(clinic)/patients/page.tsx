import type { Metadata } from "next"
import { may } from "../../../lib/access/permissions"
import { requireScreenUser } from "../../_http/require-user"
import { standings } from "../../../lib/domain/standings"
import type { Settings } from "../../../lib/domain/settings"
import { wordedMeasures } from "../../../lib/measures/worded-measures"
import { EmptyClinic } from "../empty-clinic"
import { standingWords } from "../../../lib/speech/measure-words"
import { peopledSnapshot } from "../snapshot"
import { PatientsLoader } from "./patients-loader"

export const metadata: Metadata = { title: "Patients" }

export default async function PatientsPage() {
  const caller = await requireScreenUser("people.see")
  const snapshot = await peopledSnapshot()
  if (!snapshot) return <EmptyClinic />
  const isListTaken = may(caller, "people.export")
  return <PatientsLoader {...{ snapshot, isListTaken }} measures={measureColumns(snapshot.settings)} />
}

function measureColumns(settings: Settings) {
  return wordedMeasures(settings).map((measure) => ({
    id: measure.id,
    column: measure.column,
    name: measure.name,
    theme: measure.theme,
    words: Object.fromEntries(standings.map((standing) => [standing, standingWords(measure, standing)])),
  }))
}
