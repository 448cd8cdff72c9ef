import type { Metadata } from "next"
import { standings } from "../../../lib/domain/standings"
import { measures } from "../../../lib/measures/index"
import { EmptyClinic } from "../empty-clinic"
import { standingWords } from "../measure-words"
import { peopledSnapshot } from "../snapshot"
import { PatientsLoader } from "./patients-loader"

export const metadata: Metadata = { title: "Patients" }

const columns = measures.map((measure) => ({
  id: measure.id,
  column: measure.column,
  name: measure.name,
  words: Object.fromEntries(standings.map((standing) => [standing, standingWords(measure, standing)])),
}))

export default async function PatientsPage() {
  const snapshot = await peopledSnapshot()
  if (!snapshot) return <EmptyClinic />
  return <PatientsLoader snapshot={snapshot} measures={columns} />
}
