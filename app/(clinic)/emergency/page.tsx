import type { Metadata } from "next"
import { z } from "zod"
import { requireScreenUser } from "../../_http/require-user"
import { Notice } from "../../_ui/notice"
import { OpenForm } from "./open-form"

export const metadata: Metadata = { title: "Emergency access" }

const Patient = z.uuid().nullable().catch(null)

export default async function EmergencyPage({ searchParams }: PageProps<"/emergency">) {
  await requireScreenUser("emergency.open")
  const patient = Patient.parse((await searchParams).patient ?? null)
  return (
    <Notice title="Emergency access">
      <p>
        For one hour everyone in the clinic can be opened, beyond the own panel and the own sites. The reason,
        and everything that is opened, is kept on record, and the clinic lead reviews it.
      </p>
      <OpenForm patient={patient} />
    </Notice>
  )
}
