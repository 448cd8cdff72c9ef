import type { Metadata } from "next"
import { store } from "../../../lib/store/client"
import { listEmergencies } from "../../../lib/store/emergencies"
import { requireScreenUser } from "../../_http/require-user"
import { counted } from "../../../lib/speech/format"
import { AsidePart, Screen, ScreenTitle, Theme } from "../../_ui/screen"
import { clinicTimeZone } from "../time-zone"
import { EmergencyEntry } from "./emergency-entry"
import styles from "./emergencies.module.css"

export const metadata: Metadata = { title: "Emergency access" }

export default async function EmergenciesPage() {
  const caller = await requireScreenUser("emergency.review")
  const [emergencies, timeZone] = await Promise.all([listEmergencies(store()), clinicTimeZone()])
  const open = emergencies.filter((one) => one.reviewedAt === null).length
  return (
    <Screen
      aside={
        <>
          <ScreenTitle title="Emergency access" />
          <AsidePart>
            <p>{standing(emergencies.length, open)}</p>
          </AsidePart>
        </>
      }
    >
      <Theme title="Who opened the whole clinic, and why" id="emergencies">
        {emergencies.length === 0 ? (
          <p className={`soft ${styles.none}`}>Nobody has used emergency access.</p>
        ) : null}
        <ol className={styles.list}>
          {emergencies.map((one) => (
            <EmergencyEntry key={one.id} emergency={one} caller={caller} timeZone={timeZone} />
          ))}
        </ol>
      </Theme>
    </Screen>
  )
}

function standing(all: number, open: number): string {
  if (all === 0) return "None to be reviewed."
  return open === 0 ? "All reviewed." : `${counted(open, "access", "accesses")} to be reviewed.`
}
