import type { Metadata } from "next"
import { measures } from "../../../lib/measures/index"
import { EmptyClinic } from "../empty-clinic"
import { currentSnapshot } from "../snapshot"
import { PatientsLoader } from "./patients-loader"

export const metadata: Metadata = { title: "Patients" }

export default async function PatientsPage() {
  const snapshot = await currentSnapshot()
  if (!snapshot) return <EmptyClinic />
  const columns = measures.map(({ id, column, name }) => ({ id, column, name }))
  return <PatientsLoader snapshot={snapshot} measures={columns} />
}
