import type { Metadata } from "next"
import { may } from "../../../lib/access/permissions"
import { requireScreenUser } from "../../_http/require-user"
import { EmptyClinic } from "../empty-clinic"
import { peopledSnapshot } from "../snapshot"
import { measureWordings } from "./measure-wordings"
import { PatientsLoader } from "./patients-loader"

export const metadata: Metadata = { title: "Patients" }

export default async function PatientsPage() {
  const caller = await requireScreenUser("people.see")
  const snapshot = await peopledSnapshot()
  if (!snapshot) return <EmptyClinic />
  const isListTaken = may(caller, "people.export")
  return <PatientsLoader {...{ snapshot, isListTaken }} wordings={measureWordings(snapshot)} />
}
